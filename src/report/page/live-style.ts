import { FONT, INK, INK_DARK } from '../charts/palette.ts';
import { redrawn, variables } from './page-style.ts';

/** The style sheet of the live page: the picture and the knob first, controls beside them, figures below. */
export const LIVE_STYLE = `
:root{color-scheme:light;${variables(INK)}}
${redrawn()}
@media screen{
:root[data-theme=dark]{color-scheme:dark;${variables(INK_DARK)}}
}
@media screen and (prefers-color-scheme:dark){
:root:not([data-theme]){color-scheme:dark;${variables(INK_DARK)}}
}
*{box-sizing:border-box}
html{font-size:100%}
body{margin:0;background:var(--paper);color:var(--text);font:1rem/1.45 ${FONT}}
header,main,footer{max-width:90rem;margin:0 auto;padding:0 1.25rem}
header{padding-top:1rem}
footer{padding-bottom:2rem;font-size:.875rem;color:var(--quiet)}
h1{font-size:1.5rem;line-height:1.2;margin:.1rem 0 .5rem;overflow-wrap:anywhere}
h2{font-size:1.1rem;margin:0 0 .4rem;padding-top:.35rem}
h3{font-size:1rem;margin:.75rem 0 .25rem}
p{margin:.35rem 0}
.kind,.small,.hint{font-size:.875rem;color:var(--quiet);margin:0}
.bar{display:flex;flex-wrap:wrap;gap:.4rem;margin:.4rem 0 .6rem}
button,select,input[type=number],input[type=text],textarea{font:inherit;color:inherit;background:var(--paper);border:1px solid var(--quiet);border-radius:2px;padding:.25rem .6rem;min-height:2rem}
button{cursor:pointer;white-space:nowrap}
button[aria-pressed=true]{background:var(--text);color:var(--paper)}
button:disabled{color:var(--quiet);border-color:var(--rule);cursor:default}
:focus-visible{outline:3px solid var(--front);outline-offset:2px}
input[type=range]{accent-color:var(--front);min-height:2rem;min-width:0;width:100%;margin:0}
input[aria-invalid=true]{border:2px solid var(--heat)}
.layout{display:grid;grid-template-columns:minmax(0,1.9fr) minmax(19rem,1fr);gap:0 2rem;align-items:start}
.stage{position:sticky;top:0;background:var(--paper)}
section{border-top:1px solid var(--text);margin-top:1rem}
.stage,.controls{isolation:isolate}
main>section{content-visibility:auto;contain-intrinsic-size:auto 40rem;padding:0 .5rem;margin:1rem -.5rem 0}
.knob .bar{margin:0;align-items:center}
.stage section:first-child,.layout>div>section:first-child{margin-top:0}
figure{margin:.25rem 0}
figure svg{display:block;width:100%;height:auto;overflow:visible}
.picture svg{max-height:50vh}
figcaption{font-size:.875rem;color:var(--quiet)}
.charts{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:1rem}
select{max-width:100%;min-width:0}
.designs{cursor:crosshair;touch-action:pan-y;user-select:none;margin:.25rem 3px}
.side-by-side{overflow-x:auto}
.handles{columns:2;column-gap:2rem;margin:.4rem 0}
.handles .control{break-inside:avoid;grid-template-columns:minmax(0,1fr) 7.5rem auto}
.handles .bar,.charts .bar{align-items:center;break-inside:avoid;margin:.2rem 0;flex-wrap:nowrap}
.charts .bar label{white-space:nowrap}
.legend{display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;align-items:center}
.key::before{content:'';display:inline-block;width:.7rem;height:.7rem;border-radius:50%;margin-right:.4rem;background:var(--others)}
.key.front::before{background:var(--front)}
.key.third::before{background:var(--third)}
.key.second::before{background:none;border:3px solid var(--second)}
.tall{max-height:26rem;overflow-y:auto}
.charts:has(figure:empty){grid-template-columns:minmax(0,1fr)}
figure:empty{display:none}
.readings{display:flex;flex-wrap:wrap;gap:.1rem 2rem;margin:.25rem 0;padding:0}
.readings div{min-width:6.5rem}
.readings dt{font-size:.875rem;color:var(--quiet)}
.readings dd{margin:0;font-size:1.7rem;line-height:1.15;font-weight:700;font-variant-numeric:tabular-nums}
.knob{display:grid;grid-template-columns:minmax(0,1fr) auto auto;gap:.2rem 1rem;align-items:center;margin:.4rem 0}
.knob label{grid-column:1/-1;font-weight:700}
.knob input[type=range]{min-height:3.2rem}
.knob input[type=range]::-webkit-slider-thumb{transform:scale(1.7)}
.knob input[type=range]::-moz-range-thumb{transform:scale(1.7)}
.knob input[type=number]{width:8rem;font-size:1.3rem;font-weight:700}
.moment{display:grid;grid-template-columns:minmax(0,1fr) 12rem auto;gap:.1rem 1rem;align-items:center}
.moment label,.moment p{grid-column:1/-1;font-size:.875rem}
.state{min-height:1.5em;font-weight:700;margin-top:.6rem}
.state.not{color:var(--heat)}
fieldset{border:0;border-top:1px solid var(--rule);margin:0 -.5rem;padding:.4rem .5rem .6rem;min-width:0;content-visibility:auto;contain-intrinsic-size:auto 20rem}
legend{font-weight:700;padding:0 .5rem 0 0}
.control{display:grid;grid-template-columns:minmax(0,1fr) 7.5rem 3.6rem;gap:0 .5rem;align-items:center;margin:.25rem 0}
.control label,.control .problem{grid-column:1/-1;font-size:.9rem}
.control input[type=number]{width:100%}
.control select{grid-column:1/-1;width:100%}
.control .unit,.knob .unit{font-size:.875rem;color:var(--quiet)}
.problem{color:var(--heat);font-size:.875rem}
.problem:empty{display:none}
details>summary{cursor:pointer;color:var(--front);font-size:.9rem;padding:.2rem 0}
.scroll{overflow-x:auto;max-width:100%}
table{border-collapse:collapse;font-size:.9rem;line-height:1.3;font-variant-numeric:tabular-nums;width:100%}
th,td{padding:.2rem .6rem .2rem 0;text-align:right;font-weight:400;vertical-align:baseline}
th.text,td.text{text-align:left}
thead th{border-bottom:1px solid var(--text)}
tbody tr{border-bottom:1px solid var(--rule)}
tbody th{overflow-wrap:anywhere}
.limits tbody th{overflow-wrap:anywhere}
.limits td.text{white-space:nowrap}
tr.unmet td:first-child,tr.unmet th:first-child{font-weight:700;color:var(--heat)}
.cautions ul{margin:.2rem 0;padding-left:1.1rem}
.cautions li{margin:.25rem 0;overflow-wrap:anywhere}
.cautions .source,.unjudged{color:var(--quiet);font-size:.875rem;overflow-wrap:anywhere}
.columns{columns:2;column-gap:2rem}
.columns>*{break-inside:avoid}
textarea{width:100%;min-height:14rem;font:.8125rem/1.4 ui-monospace,'Liberation Mono','DejaVu Sans Mono',monospace}
a{color:var(--front)}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
[hidden]{display:none!important}
:root[data-room] .kind,:root[data-room] .hint,:root[data-room] figcaption{font-size:1rem}
@media screen{
:root[data-room]{font-size:150%}
:root[data-room] .layout{grid-template-columns:minmax(0,1fr)}
:root[data-room] .stage{position:static}
:root[data-room] .readings{gap:.1rem 1.4rem}
:root[data-room] .readings dd{font-size:2rem}
:root[data-room] .picture svg{max-height:60vh}
:root[data-room] h1{font-size:1.2rem}
}
@media screen and (max-width:56rem){
.layout{grid-template-columns:minmax(0,1fr)}
.stage{position:static}
.columns{columns:1}
}
@media screen and (max-width:40rem){
header,main,footer{padding-left:.75rem;padding-right:.75rem}
.charts,.moment{grid-template-columns:minmax(0,1fr)}
.handles{columns:1}
.handles .bar{flex-wrap:wrap}
.knob{grid-template-columns:minmax(0,1fr) auto}
.knob .bar{grid-column:1/-1}
.side-by-side svg{min-width:40rem}
.readings dd{font-size:1.35rem}
:root[data-room]{font-size:125%}
}
@page{size:A4;margin:14mm}
@media print{
html{font-size:9.5pt}
header,main,footer{max-width:none;padding:0}
.bar,.controls,.screen-only,.moment button,.legend button,input[type=range]{display:none!important}
.layout{display:block}
main>section{content-visibility:visible}
.stage{position:static}
.picture svg{max-height:105mm}
.tall{max-height:none;overflow:visible}
figure,li,tr{break-inside:avoid}
h2,h3{break-after:avoid}
.key::before{print-color-adjust:exact}
.columns{columns:2}
table{font-size:8pt}
}
`;
