/**
 * How a chart looks inside the preview. It comes after the picture's own style, and speaks through
 * the custom properties that the page sets by the editor's theme (style.css).
 */
export const chartStyle = `
svg { width: 100%; height: auto; display: block; }
text { fill: var(--setwright-ink); }
.ground { fill: var(--setwright-paper); }
.ink { fill: var(--setwright-ink); }
.faint { fill: var(--setwright-faint); }
.grid { stroke: var(--setwright-grid); }
.frame { stroke: var(--setwright-faint); }
.c0 { stroke: var(--setwright-curve-0); } .m0 { fill: var(--setwright-curve-0); stroke: var(--setwright-paper); }
.c1 { stroke: var(--setwright-curve-1); } .m1 { fill: var(--setwright-curve-1); stroke: var(--setwright-paper); }
.c2 { stroke: var(--setwright-curve-2); } .m2 { fill: var(--setwright-curve-2); stroke: var(--setwright-paper); }
.c3 { stroke: var(--setwright-curve-3); } .m3 { fill: var(--setwright-curve-3); stroke: var(--setwright-paper); }
.c4 { stroke: var(--setwright-curve-4); } .m4 { fill: var(--setwright-curve-4); stroke: var(--setwright-paper); }
.c5 { stroke: var(--setwright-curve-5); } .m5 { fill: var(--setwright-curve-5); stroke: var(--setwright-paper); }
`;

/** The same for the drawing of a set. */
export const pictureStyle = `
:host { display: block; position: absolute; inset: 0; }
svg { width: 100%; height: 100%; display: block; }
text { fill: var(--setwright-ink); user-select: none; }
[data-part] { cursor: pointer; }
[data-part]:focus { outline: none; }
.reach { fill: transparent; stroke: none; pointer-events: all; vector-effect: non-scaling-stroke; }
[data-part]:hover > .reach { fill: var(--setwright-hover); }
/* At the cursor of the source: a solid frame. With the keyboard's focus: a dashed one, further out. */
.lit > .reach { fill: var(--setwright-lit-paper); stroke: var(--setwright-lit); stroke-width: 2px; }
text.lit { fill: var(--setwright-lit); stroke: var(--setwright-paper); stroke-width: 3px; paint-order: stroke; }
[data-part]:focus-visible > .reach { stroke: var(--setwright-focus); stroke-width: 2.5px; stroke-dasharray: 5 3; }
.lit:focus-visible > .reach { stroke-width: 3.5px; }
/* What the steps of a tour draw over the set, and how it runs along its way. */
[data-layer] { display: none; pointer-events: none; }
[data-layer].told { display: inline; }
/* The tour tells of the set as it is meant: what is found wrong with it is told elsewhere. */
:host(.touring) .finding { display: none; }
:host(.touring) .lit > .reach { fill: transparent; stroke-width: 1px; }
@media (prefers-reduced-motion: no-preference) {
  :host(.running) .told .path { animation: run 1.2s linear infinite; }
  :host(.running) .told .path.direct { stroke-dasharray: 17 5; --run: -22px; }
  .path.radio { --run: -30px; }
  .path.audio { --run: -24px; }
  .path.feedback, .path.oscillator { --run: -18px; }
  .path.field { --run: -15px; }
}
@keyframes run { to { stroke-dashoffset: var(--run); } }
.finding { pointer-events: none; }
.finding .shape { stroke: var(--setwright-paper); stroke-width: 1.5px; }
.finding .sign { fill: none; stroke: var(--setwright-paper); stroke-width: 2.2px; stroke-linecap: round; }
.finding.error .shape { fill: var(--setwright-error); }
.finding.warning .shape { fill: var(--setwright-warning); }
.finding.information .shape { fill: var(--setwright-information); }
.finding.hint .shape { fill: var(--setwright-hint); }
`;
