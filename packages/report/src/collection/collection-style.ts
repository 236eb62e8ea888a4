const light =
  '--ground:#f4f0e4;--sheet:#fffdf7;--ink:#221f19;--quiet:#5d5647;--line:#cdc3a8;--mark:#7a3410;--error:#a3131f';
const dark =
  '--ground:#15171a;--sheet:#1e2124;--ink:#ece7db;--quiet:#b3ab9a;--line:#4a4d4b;--mark:#f1b27a;--error:#ff9a92';

/** The look of the index: a ledger, of which a phone shows each line as a card. */
export const collectionStyle = `
:root{color-scheme:light dark;${light}}
@media (prefers-color-scheme:dark){:root{${dark}}}
*{box-sizing:border-box}
body{margin:0 auto;padding:1.25rem;max-width:82rem;background:var(--ground);color:var(--ink);font:1rem/1.45 "Source Sans 3","Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif}
h1,h2{font-family:"Iowan Old Style","Palatino Linotype",Palatino,"Liberation Serif",Georgia,serif;line-height:1.2;margin:0;overflow-wrap:anywhere}
h1{font-size:1.9rem}
h2{font-size:1.3rem;margin:2rem 0 .5rem}
header p{margin:.25rem 0 1rem;color:var(--quiet)}
a{color:var(--mark)}
:focus-visible{outline:3px solid var(--mark);outline-offset:2px}
[hidden]{display:none!important}
.needs-script{display:none}
.script .needs-script{display:flex}
.tools{flex-wrap:wrap;gap:.5rem .75rem;align-items:center;margin:0 0 1rem}
.tools label{font-weight:600}
.tools p{margin:0;color:var(--quiet)}
input{font:inherit;color:var(--ink);background:var(--sheet);border:1px solid var(--quiet);border-radius:.35rem;padding:.4rem .6rem;min-height:2.5rem;flex:0 1 24rem;min-width:0}
table{border-collapse:collapse;width:100%;background:var(--sheet);border:1px solid var(--line)}
caption{text-align:left;padding:0 0 .4rem;color:var(--quiet)}
th,td{text-align:left;vertical-align:top;padding:.45rem .65rem;border-top:1px solid var(--line);overflow-wrap:anywhere}
thead th{border-top:0;border-bottom:2px solid var(--quiet);position:sticky;top:0;background:var(--sheet);overflow-wrap:normal;white-space:nowrap}
.script thead th{padding:.2rem .3rem}
thead button{font:inherit;font-weight:600;color:inherit;background:none;border:0;border-radius:.25rem;padding:.3rem .35rem;min-height:2rem;cursor:pointer;text-align:left}
thead button:hover{color:var(--mark)}
thead button::after{content:"\\2195";color:var(--quiet);padding-left:.35rem;font-weight:400}
[aria-sort=ascending] button::after{content:"\\2191";color:var(--ink)}
[aria-sort=descending] button::after{content:"\\2193";color:var(--ink)}
tbody th{font-weight:600;min-width:12rem}
tbody tr:hover>*{background:color-mix(in srgb,var(--mark) 8%,var(--sheet))}
[data-column=Year]{font-variant-numeric:tabular-nums;white-space:nowrap}
[data-column=Findings]{min-width:7.5rem}
[data-column=Tubes] span{display:inline-block}
[data-column=File]{color:var(--quiet);font-size:.875em}
.error{color:var(--error)}
ul{margin:0;padding-left:1.25rem}
li{margin:.3rem 0;overflow-wrap:anywhere}
footer{margin:2rem 0 0;border-top:1px solid var(--line);color:var(--quiet);font-size:.9rem}
footer p{margin:.5rem 0 0}
@media (max-width:48rem){
body{padding:.85rem}
h1{font-size:1.5rem}
input{flex:1 1 100%}
table,tbody,tbody tr,tbody th,tbody td{display:block}
table{border:0;background:none}
caption{display:block}
thead tr{display:flex;flex-wrap:wrap;gap:.15rem}
thead{display:none}
.script thead{display:block;margin:0 0 .75rem}
.script thead::before{content:"Sort by";color:var(--quiet);font-size:.9rem}
thead th{position:static;border:1px solid var(--line);border-radius:.35rem;padding:0}
.script thead th{padding:0}
thead button{min-height:2.5rem;padding:.3rem .6rem}
tbody tr{background:var(--sheet);border:1px solid var(--line);border-left:.3rem solid var(--mark);border-radius:.5rem;padding:.6rem .8rem;margin:0 0 .75rem}
tbody th,tbody td{border:0;padding:.1rem 0;min-width:0}
tbody th{font-size:1.1rem;padding:0 0 .25rem}
tbody td::before{content:attr(data-column) ": ";color:var(--quiet)}
tbody tr:hover>*{background:none}
}
@media print{
:root{color-scheme:light;${light};--ground:#fff;--sheet:#fff}
body{max-width:none;padding:0;font-size:9.5pt}
.script .tools,thead button::after{display:none}
thead{display:table-header-group}
thead th{position:static}
tr{break-inside:avoid}
a{color:inherit}
th,td,.script thead th{padding:.2rem .35rem}
thead button{padding:0;min-height:0}
tbody th{min-width:0}
}
`;
