import { METAL_INKS, METAL_INKS_DARK } from '../charts/metal-inks.ts';
import { FONT, INK, INK_DARK, RAMP, RAMP_DARK } from '../charts/palette.ts';

type Ink = keyof typeof INK;
const NAMES = Object.keys(INK) as Ink[];

export function variables(inks: Readonly<Record<Ink, string>>): string {
  return NAMES.map((name) => `--${name}:${inks[name]}`).join(';');
}

/** Charts and drawings carry their inks as attributes, which any rule of a style sheet overrides: by those of `variables`. */
export function redrawn(): string {
  return turned(NAMES.map((name) => [INK[name], `var(--${name})`]));
}

function turned(pairs: readonly (readonly [from: string, to: string])[]): string {
  return pairs
    .map(([from, to]) => `svg [fill="${from}"]{fill:${to}}svg [stroke="${from}"]{stroke:${to}}`)
    .join('\n');
}

/**
 * The height of a small x over the font's size in Arial (its OS/2 table). A printed card sets letters of any font to the
 * height of Arial's: a sheet has no room for DejaVu Sans as its maker sized it.
 */
const ARIAL_X_HEIGHT = 0.519;

/** The style sheet of every page: one column of text, figures at their size, tables ruled like a printed one. */
export const PAGE_STYLE = `
:root{color-scheme:light dark;${variables(INK)}}
${redrawn()}
.moving{cursor:pointer}
@media (prefers-reduced-motion:reduce){.moving{pointer-events:none}}
@media screen and (prefers-color-scheme:dark){
:root{${variables(INK_DARK)}}
${turned(RAMP.map((from, i) => [from, RAMP_DARK[i]!]))}
${turned(METAL_INKS.map(({ ink }, i) => [ink, METAL_INKS_DARK[i]!]))}
}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--text);font:1rem/1.5 ${FONT}}
header,main,footer{max-width:62rem;margin:0 auto;padding:0 1.25rem}
header{padding-top:2rem}
footer{padding-bottom:3rem;color:var(--quiet)}
p,ul,ol,h1{max-width:44rem}
h1{font-size:1.9rem;line-height:1.2;font-weight:700;margin:.2rem 0 1rem;overflow-wrap:anywhere}
h2{font-size:1.25rem;font-weight:700;margin:0 0 .75rem;padding-top:.5rem}
h3{font-size:1rem;font-weight:700;margin:1.5rem 0 .5rem}
section{border-top:1px solid var(--text);margin-top:2.5rem}
.kind,.small,figcaption,.hint{font-size:.875rem;color:var(--quiet)}
.kind{margin:0}
nav ul{list-style:none;margin:1rem 0 0;padding:0;display:flex;flex-wrap:wrap;gap:.25rem 1.25rem;font-size:.9375rem}
a{color:var(--front);text-underline-offset:.15em}
a:focus-visible,button:focus-visible,summary:focus-visible,.scroll:focus-visible,.picture:focus-visible{outline:2px solid var(--front);outline-offset:2px}
.answer{padding-left:1.1rem}
.answer li{margin:.35rem 0}
figure{margin:1rem 0}
figure svg,.drawing svg{display:block;max-width:100%;height:auto}
figcaption{max-width:44rem;margin-top:.35rem}
svg text{pointer-events:none}
svg a:hover path,svg a:focus path{stroke:var(--text);stroke-width:2.5}
svg a:focus{outline:none}
details{margin:.5rem 0 1rem;max-width:100%}
summary{cursor:pointer;font-size:.875rem;color:var(--front)}
.scroll{overflow-x:auto;max-width:100%}
.tall{max-height:36rem;overflow-y:auto}
.tall thead th{position:sticky;top:0;background:var(--paper);box-shadow:0 1px var(--text)}
table{border-collapse:collapse;font-size:.875rem;line-height:1.35;font-variant-numeric:tabular-nums;margin:.5rem 0}
caption{text-align:left;color:var(--quiet);padding-bottom:.35rem}
th,td{padding:.22rem .6rem;text-align:right;vertical-align:baseline;font-weight:400}
th:first-child,td:first-child{padding-left:0}
tr[id] th{white-space:nowrap}
td.text,th.text{text-align:left}
.topics th,.fitted td{white-space:nowrap}
thead th{border-bottom:1px solid var(--text);vertical-align:bottom}
tbody tr{border-bottom:1px solid var(--rule)}
tbody tr:target,tbody tr:hover{background:color-mix(in srgb,var(--front) 9%,transparent)}
thead button{all:unset;cursor:pointer;text-align:inherit}
thead button:focus-visible{outline:2px solid var(--front);outline-offset:2px}
thead button::after{content:"";position:absolute}
th[aria-sort=ascending] button::after{content:"\\2191"}
th[aria-sort=descending] button::after{content:"\\2193"}
.unit{display:block;color:var(--quiet)}
.letter{print-color-adjust:exact;-webkit-print-color-adjust:exact;display:inline-block;min-width:1.35em;line-height:1.35em;border-radius:50%;background:var(--front);color:var(--paper);text-align:center;font-weight:700}
dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:0 2rem;margin:.5rem 0;font-size:.875rem}
dl div{display:flex;justify-content:space-between;gap:1rem;border-bottom:1px solid var(--rule);padding:.2rem 0}
dt{color:var(--quiet)}
dd{margin:0;text-align:right;font-variant-numeric:tabular-nums;overflow-wrap:anywhere}
.events{display:block;max-width:44rem}
.events dt{min-width:7rem}
.events dd{flex:1;text-align:left}
code{overflow-wrap:anywhere}
pre{font:.8125rem/1.45 ui-monospace,'Liberation Mono','DejaVu Sans Mono',monospace;white-space:pre-wrap;overflow-wrap:anywhere;border-left:2px solid var(--rule);padding-left:.9rem;margin:.75rem 0}
.cautions h3{margin-bottom:.15rem}
.cautions h4{font-size:1rem;font-weight:700;margin:.75rem 0 .15rem}
.unjudged{color:var(--quiet)}
.cautions p{margin:.15rem 0}
#hover{position:fixed;z-index:2;max-width:22rem;padding:.35rem .6rem;background:var(--text);color:var(--paper);font-size:.8125rem;line-height:1.4;pointer-events:none;white-space:pre-line}
#hover:not(.shown){display:none}
dialog{width:min(48rem,calc(100vw - 2rem));max-height:calc(100vh - 2rem);border:1px solid var(--text);background:var(--paper);color:var(--text);padding:1rem 1.25rem 1.25rem}
dialog::backdrop{background:rgb(0 0 0/.45)}
dialog h2{margin:0;padding:0}
.bar{display:flex;flex-wrap:wrap;gap:.5rem;justify-content:space-between;align-items:baseline}
.bar button,.bar a{font:inherit;font-size:.875rem}
.bar button{border:1px solid var(--text);background:none;color:inherit;padding:.15rem .7rem;cursor:pointer}
.bar button:disabled{opacity:.4;cursor:default}
.question{display:block;font-size:1rem}
.question div{display:block;border:0;padding:.1rem 0;max-width:44rem}
.question dt,.question dd{display:inline;text-align:left}
.question dt::after{content:" "}
.print-only{display:none}
@media screen and (max-width:40rem){.picture{overflow-x:auto}.picture svg{max-width:none;min-width:34rem}}

.bench-card section{border-top:1px solid var(--text);margin-top:1rem}
.bench-card h2{font-size:1rem;margin:0 0 .25rem;padding-top:.25rem}
.bench-card h1{font-size:1.35rem}
.bench-card figure{margin:.25rem 0}
.bench-card td.text,.bench-card th.text{padding:.1rem .5rem .1rem 0}
.bench-card th.text{color:var(--quiet);white-space:nowrap}
.table-and-chart{display:flex;flex-wrap:wrap;gap:0 2rem;align-items:flex-start}
.table-and-chart td{white-space:nowrap}
.side-by-side{display:flex;flex-wrap:wrap;gap:.5rem 2rem;align-items:flex-start}
.bench-card header{padding:0}
.beside{columns:2;column-gap:1.5rem;max-width:none}
.beside>*{break-inside:avoid}
.beside section:first-child{margin-top:0}
.card-cautions h3{font-size:.9375rem;margin:.5rem 0 .15rem;break-after:avoid}
.card-cautions h3:first-child{margin-top:0}
.card-cautions ul{font-size:.875rem;padding-left:1.1rem;margin:.25rem 0}
.card-cautions li{break-inside:avoid}
.card-cautions .beside>*{break-inside:auto}
.card-cautions .source{color:var(--quiet)}
.card-cautions .unjudged{font-size:.875rem;margin:.25rem 0;overflow-wrap:anywhere}
@media screen and (max-width:40rem){.beside{columns:1}.side-by-side figure,.table-and-chart figure{max-width:100%}.table-and-chart figure svg{min-width:0;max-width:100%}}
@page{size:A4;margin:15mm 14mm}
@page card{size:A4;margin:8mm 11mm}
@media print{
html{font-size:9.5pt}
body{font-size:9.5pt}
header,main,footer{max-width:none;padding:0}
nav,.hint,#hover,dialog,details:not([open]),.screen-only{display:none}
.print-only{display:block}
a{color:inherit;text-decoration:none}
section{margin-top:1.2rem}
h2,h3{break-after:avoid}
figure,.rig,.cautions article{break-inside:avoid}
figure svg{max-width:138mm;max-height:230mm}
h2+p{break-after:avoid;break-inside:avoid}
.kind,.small,figcaption{font-size:8pt}
.question,nav ul{font-size:9.5pt}
.scroll{overflow:visible;max-height:none}
.tall thead th{position:static;box-shadow:none}
.limits td,.bench-card td{white-space:normal;overflow-wrap:anywhere}
table{font-size:7.2pt;width:100%}
th,td{padding:.12rem .22rem}
td{white-space:nowrap}
tr{break-inside:avoid}
tr.more{display:none}
dl{grid-template-columns:repeat(3,1fr);font-size:8pt}
.bench-card{page:card;font-size-adjust:${ARIAL_X_HEIGHT}}
.bench-card p{max-width:none}
.beside th.text{white-space:normal;width:23mm}
.bench-card h1{font-size:12pt;margin:0 0 1mm}
.bench-card section{margin-top:1mm}
.bench-card h2{font-size:10pt;line-height:1.2;margin:0}
.bench-card table{font-size:9pt;line-height:1.1;margin:0}
.table-and-chart{flex-wrap:nowrap;gap:4mm}
.table-and-chart table{width:auto}
.table-and-chart svg{max-width:66mm;max-height:52mm}
.side-by-side{flex-wrap:nowrap;gap:6mm}
.side-by-side figure{flex:1}
.side-by-side svg{max-width:86mm;max-height:62mm}
.table-and-chart td,.table-and-chart th{white-space:nowrap;overflow-wrap:normal}
.table-and-chart thead th{white-space:normal}
.bench-card figcaption{font-size:9pt;margin:0}
.bench-card th,.bench-card td{padding:.02rem .3rem}
.bench-card figure{margin:0}
.bench-card>figure svg{max-width:150mm;max-height:46mm}
.bench-card>.beside>:last-child{break-inside:auto}
.card-cautions{break-before:page}
.card-cautions h2{font-size:12pt;padding:0}
.card-cautions h3{font-size:10pt;line-height:1.2;margin:1mm 0 .3mm}
.card-cautions ul,.bench-card .unjudged{font-size:9pt;line-height:1.15;margin:.3mm 0}
.bench-card .small,.bench-card .kind{font-size:9pt;line-height:1.15;margin:.4mm 0}
.bench-card .overleaf{font-size:10pt;line-height:1.2;margin:0 0 1mm;max-width:none}
pre{font-size:7.5pt}
}
`;
