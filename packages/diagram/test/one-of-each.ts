/** A set with one part of every kind of the language: no good set, but one that reads. */
export const oneOfEach = `
receiver "One of each" {
  battery A storage { tap A- 0 V
    tap A+ 6 V }
  eliminator B { tap B-
    tap B+45 45 V at 1 mA resistance 20 kilohms
    tap B+90 90 V at 2 mA resistance 8 kilohms }
  post ANT aerial
  post GND ground
  bus NEG
  wire B- to A- to GND
  wire A- to NEG .4 ohms
  switch S1 from A+ to FU1.start closed
  fuse FU1 from S1.finish to V1.filament+
  lamp PL1 6 V .15 A from V1.filament+ to NEG
  ballast K1 5 V .25 A from V1.filament- to NEG
  rheostat RH1 10 ohms from V2.filament- to NEG
  wire V2.filament+ to V1.filament+
  variometer VM1 50 uH to 300 uH from ANT to X1
  bus X1
  loop LP1 180 uH from X1 to GND
  coil L1 { winding grid 50 turns tap 10 tap 25 from GND
    winding plate 10 turns from V1.plate to B+90 }
  condenser C1 variable 14 to 365 mmfd across L1.grid
  condenser C2 trimmer 2 to 20 mmfd across L1.grid
  selector S2 from X1 to L1.grid.tap10, L1.grid.finish set tap10
  tube V1 01-A { grid to X1 }
  leak R1 2 meg from L1.grid.finish to A+
  crystal CR1 from L1.grid.tap25 to T1.primary.start
  transformer T1 ratio 1 to 3 { winding primary to NEG
    winding secondary from NEG to V2.grid }
  tube V2 01-A
  choke CH1 30 H from V2.plate to B+90
  potentiometer P1 400 ohms from V2.plate to NEG arm to J1.tip
  jack J1 from P1.arm to NEG
  phones PH1 2000 ohms into J1
  horn H1 from V2.plate to B+45
  speaker SP1 from P1.arm to NEG
  resistor R2 5 ohms from B+45 to B+90
  condenser C9 .5 mfd
  shield SH1 around L1 to NEG
}
`;
