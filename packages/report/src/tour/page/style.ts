/** Colours of the page, then of the drawing in it, on a light ground and on a dark one. */
const light = `--ground:#f4f0e4;--sheet:#fffdf7;--ink:#221f19;--quiet:#5d5647;--line:#cdc3a8;--mark:#7a3410;--mark-ground:#f3e4d2;
--setwright-ink:#1b1a17;--setwright-paper:#fffdf7;--setwright-faint:#6b6659;--setwright-dim:#bcb7aa;--setwright-direct:#aa2419;--setwright-radio:#0a5c97;--setwright-audio:#1f6e3a;--setwright-feedback:#7b2f8f;--setwright-oscillator:#7b2f8f;--setwright-failed:#c00020;--setwright-changed:#8a4a00;--setwright-figure:#0a5c97;--setwright-area:#f5efdf;--setwright-area-edge:#cfc6ae`;

const dark = `--ground:#15171a;--sheet:#1e2124;--ink:#ece7db;--quiet:#b3ab9a;--line:#4a4d4b;--mark:#f1b27a;--mark-ground:#3a2c20;
--setwright-ink:#ededed;--setwright-paper:#1e2124;--setwright-faint:#a0a0a0;--setwright-dim:#5c5f60;--setwright-direct:#ff8f85;--setwright-radio:#6cb6f0;--setwright-audio:#86cf83;--setwright-feedback:#d59be6;--setwright-oscillator:#d59be6;--setwright-failed:#ff7a7a;--setwright-changed:#f3b562;--setwright-figure:#6cb6f0;--setwright-area:#2a2c2a;--setwright-area-edge:#56574f`;

/** The page's own look: a sheet on a bench, with the words beside the drawing or below it. */
export const pageStyle = `
:root{color-scheme:light dark;${light}}
@media (prefers-color-scheme:dark){:root{${dark}}}
*{box-sizing:border-box}
body{margin:0;background:var(--ground);color:var(--ink);font:1.0625rem/1.55 "Source Sans 3","Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif}
h1,h2{font-family:"Iowan Old Style","Palatino Linotype",Palatino,"Liberation Serif",Georgia,serif;line-height:1.2;margin:0}
h1{font-size:1.25rem}
h2{font-size:1.6rem}
a{color:var(--mark)}
:focus-visible{outline:3px solid var(--mark);outline-offset:2px}
.head{display:flex;flex-wrap:wrap;gap:.5rem 1.25rem;align-items:baseline;padding:.75rem 1.25rem;border-bottom:1px solid var(--line)}
.head p{margin:0;color:var(--quiet)}
.tools{display:flex;flex-wrap:wrap;gap:.4rem;margin-left:auto}
button{font:inherit;font-size:.9375rem;color:var(--ink);background:var(--sheet);border:1px solid var(--quiet);border-radius:.35rem;padding:.3rem .75rem;min-height:2.25rem;cursor:pointer}
button:hover:not(:disabled){border-color:var(--mark);color:var(--mark)}
button[aria-pressed=true]{background:var(--mark-ground);border-color:var(--mark)}
button:disabled{color:var(--quiet);border-color:var(--line);cursor:default}
main{display:grid;grid-template-columns:minmax(0,1fr) minmax(20rem,27rem);gap:1.25rem;padding:1.25rem;align-items:start}
.picture{margin:0;background:var(--sheet);border:1px solid var(--line);border-radius:.5rem;padding:.5rem;overflow-x:auto}
.walking .picture{position:sticky;top:.75rem}
.picture svg{display:block;width:100%;height:auto;min-width:42rem}
.walking .picture svg{max-height:calc(100vh - 8rem)}
.layer{display:none}
.layer.shown{display:inline}
.words{min-width:0}
.step{background:var(--sheet);border:1px solid var(--line);border-left:.3rem solid var(--mark);border-radius:.5rem;padding:1rem 1.25rem 1.1rem;margin:0 0 1rem}
.step h2:focus{outline:none}
.step p{margin:.6rem 0 0}
.step .count{color:var(--quiet);font-size:.9rem;margin:0 0 .15rem}
.walking:not(.handout) .count{display:none}
.walking:not(.handout) .step{scroll-margin-top:200vh}
.missing{color:var(--quiet)}
details{margin-top:.9rem}
summary{cursor:pointer;color:var(--mark)}
table{border-collapse:collapse;margin-top:.5rem;width:100%;font-size:.9rem}
th,td{text-align:left;vertical-align:top;padding:.35rem .5rem .35rem 0;border-top:1px solid var(--line)}
th{font-weight:600}
td.amount{white-space:nowrap;font-variant-numeric:tabular-nums;font-weight:600}
.because{color:var(--quiet)}
.turns{display:flex;gap:.5rem;align-items:center;margin:0 0 1rem}
.turns .where{flex:1;text-align:center;color:var(--quiet)}
.next{display:none}
.all ol{columns:2;padding-left:1.5rem;margin:.5rem 0 0}
.all li{margin:.15rem 0;break-inside:avoid}
.all a[aria-current=step]{font-weight:700;color:var(--ink)}
.keys{color:var(--quiet);font-size:.9rem;padding:0 1.25rem 1rem;margin:0}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.copy{display:none}
.needs-script{display:none}
.script .needs-script{display:flex}
.script .keys.needs-script{display:block}
@media (prefers-reduced-motion:no-preference){
.flowing .path{animation:flow 1s linear infinite}
.flowing .path.direct{stroke-dasharray:17 5;--flow:-22px}
.path.radio{--flow:-30px}.path.audio{--flow:-24px}.path.feedback,.path.oscillator{--flow:-18px}.path.field{--flow:-15px}
@keyframes flow{to{stroke-dashoffset:var(--flow)}}
}
@media (prefers-reduced-motion:reduce){#flow{display:none}}
.presenter{font-size:1.3rem}
.presenter main{grid-template-columns:minmax(0,1.7fr) minmax(24rem,1fr)}
.presenter h2{font-size:2.1rem}
.presenter .step{padding:1.5rem 1.75rem}
.presenter .keys,.presenter .all{display:none}
.presenter .next{display:block;color:var(--quiet);margin:0}
.handout main{display:block;max-width:60rem;margin:0 auto}
.handout .picture,.handout .turns,.handout .keys{display:none}
.handout .copy{display:block;margin:1rem 0 0}
.handout .copy svg{display:block;width:100%;height:auto;max-height:34rem}
@media (max-width:56rem){
main,.presenter main{grid-template-columns:minmax(0,1fr);padding:.75rem;gap:.75rem}
.head{padding:.6rem .75rem}.tools{margin-left:0}
.walking .picture{position:sticky;top:0;z-index:1;overflow:auto;max-height:46vh}
.walking .picture svg{max-height:none}
.all ol{columns:1}
.keys{padding:0 .75rem .75rem}
h2{font-size:1.35rem}
.presenter{font-size:1.15rem}.presenter h2{font-size:1.6rem}
}
@media print{
:root{color-scheme:light;${light};--ground:#fff;--sheet:#fff;--setwright-paper:#fff}
body,.presenter{font-size:10.5pt;background:#fff}
.tools,.turns,.all,.script .needs-script,.script .keys.needs-script{display:none}
main,.presenter main{display:block;padding:0}
.walking.filled .picture{display:none}
.step,.walking .step[hidden]{display:block;break-inside:avoid;border:0;border-top:1px solid #999;border-radius:0;padding:.6rem 0;margin:0}
.filled .copy{display:block;margin:.5rem 0 0}
.filled .copy svg{display:block;width:100%;height:auto;max-height:115mm}
.next{display:none}
details>*{display:none}
.walking .count,.walking:not(.handout) .count{display:block}
.flowing .path{animation:none}
}
`;
