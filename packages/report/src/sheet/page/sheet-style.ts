/**
 * The look of a sheet: black on white wherever it is read, for it is made to be printed. Paper of
 * either size gives the width; what is wider than a small screen scrolls within its own frame.
 */
export const sheetStyle = `
:root{color-scheme:light;--setwright-ink:#000;--setwright-paper:#fff;--setwright-faint:#333;--setwright-figure:#000;--setwright-dim:#888;--setwright-area:#fff;--setwright-area-edge:#999}
*{box-sizing:border-box}
body{margin:0 auto;padding:1.5rem 1.25rem 3rem;max-width:62rem;background:#fff;color:#000;font:.9375rem/1.45 "Source Sans 3","Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif;overflow-wrap:break-word}
h1,h2{font-family:"Iowan Old Style","Palatino Linotype",Palatino,"Liberation Serif",Georgia,serif;line-height:1.2;margin:0}
h1{font-size:1.9rem}
h2{font-size:1.3rem;border-bottom:1.5px solid #000;padding-bottom:.15rem;margin:0 0 .5rem}
a{color:#000}
:focus-visible{outline:3px solid #000;outline-offset:2px}
.back{margin:0 0 1rem}
.kind{margin:.1rem 0 .8rem;color:#333}
.facts{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:0 1.25rem;margin:0;border-top:1.5px solid #000;border-bottom:1.5px solid #000;padding:.4rem 0}
.facts div{display:flex;gap:.5rem;padding:.15rem 0;min-width:0}
.facts dt{flex:none;width:6.2rem;color:#333}
.facts dd{margin:0;min-width:0;overflow-wrap:anywhere;flex:1}
.facts dd.line{border-bottom:1px solid #777;min-height:1.4em}
section{margin:1.6rem 0 0}
p{margin:.45rem 0}
ul,ol{margin:.3rem 0;padding-left:1.3rem}
li{margin:.2rem 0}
.caution{font-weight:600}
.missing{font-style:italic}
.note{color:#333;font-size:.875rem}
.wide{overflow-x:auto;margin:.6rem 0 0}
table{border-collapse:collapse;width:100%;font-size:.875rem;line-height:1.3}
caption{text-align:left;font-weight:600;padding:.25rem 0}
th,td{text-align:left;vertical-align:top;padding:.2rem .5rem .2rem 0;border-top:1px solid #bbb}
thead th{font-weight:600;border-top:1px solid #000;border-bottom:1px solid #000;vertical-align:bottom}
tbody th{font-weight:600;overflow-wrap:anywhere}
th.near{white-space:nowrap}
tr.group th{padding-top:.55rem;border-top:1px solid #000;font-style:italic}
td.amount,th.amount{text-align:right;font-variant-numeric:tabular-nums}
td.amount{white-space:nowrap}
td.words{overflow-wrap:anywhere;padding-left:.35rem}
th.words{padding-left:.35rem}
td.write,th.write{border-left:1px solid #bbb;min-width:4.5rem;padding-left:.4rem}
td.lines{height:1.9rem}
figure{margin:.8rem 0 0}
.drawing svg{display:block;margin:0 auto;max-width:100%;height:auto;max-height:60rem}
.charts svg{display:block;margin:0 auto;width:100%;max-width:40rem;height:auto}
.made{margin:2rem 0 0;border-top:1px solid #bbb;padding-top:.4rem;color:#333;font-size:.8125rem}
@media (max-width:40rem){
body{padding:1rem .75rem 2rem}
h1{font-size:1.5rem}
.facts{grid-template-columns:minmax(0,1fr)}
table{min-width:34rem}
.drawing{overflow-x:auto}
.drawing svg{max-width:none;max-height:none;width:56rem}
}
@page{margin:12mm 12mm 15mm;@bottom-right{content:counter(page) " of " counter(pages);font:8pt "Liberation Sans",Arial,sans-serif;color:#333}}
@media print{
body{max-width:none;padding:0;font-size:9.5pt;line-height:1.35}
h1{font-size:18pt}
h2{font-size:12.5pt;break-after:avoid}
.back{display:none}
.facts{grid-template-columns:repeat(2,minmax(0,1fr))}
section{margin:5mm 0 0}
.wide{overflow:visible;margin:2mm 0 0}
table{font-size:8pt;line-height:1.25;min-width:0;break-inside:auto}
caption{break-after:avoid}
thead{display:table-header-group}
tr,li,.facts div,.together{break-inside:avoid}
tr.group{break-after:avoid}
tr:nth-child(-n+3){break-before:avoid}
p{orphans:3;widows:3}
.note{font-size:8pt}
figure{break-inside:avoid;margin:2mm 0 0}
.drawing svg{max-width:100%;max-height:225mm;width:auto}
.charts svg{max-width:140mm;max-height:105mm}
td.write,th.write{min-width:16mm}
td.lines{height:9mm}
a{text-decoration:none}
}
`;
