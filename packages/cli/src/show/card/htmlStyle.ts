import { PAPERS, type Paper } from './cardModel.js';
import { WEB_FONT_FAMILY } from './htmlFonts.js';
import { INKS } from './page.js';

const { accent, hairline, text, paper } = INKS;

const SHARED = `
*{box-sizing:border-box;margin:0;padding:0}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%;color-scheme:light}
body{background:${paper};color:${text};font-family:'${WEB_FONT_FAMILY}',system-ui,'Segoe UI',Roboto,'Helvetica Neue',Arial,sans-serif;
  line-height:1.35;overflow-wrap:anywhere}
img,svg{display:block}
`;

/** What is big, what is quiet, what stands beside what. */
const SCREEN = `
@media screen{
.sheet{display:none}
body{font-size:clamp(1.125rem,.95rem + .55vw,1.3rem);font-variant-numeric:lining-nums tabular-nums;--edge:clamp(1rem,4vw,2.5rem)}
main,footer{max-width:54rem;margin-inline:auto;padding-inline:var(--edge)}
main{padding-top:1.5rem}
main>*{margin-bottom:1.9rem}
footer{padding-bottom:2rem}
h1,h2,dt,th,.value,.shop-name,.for-whom,.serve{font-weight:600}
h1{font-size:1.5em;line-height:1.15}
h2{font-size:1.08em;line-height:1.2;color:${accent};margin-bottom:.35em}
ul{list-style:none}
li+li{margin-top:.35em}
header{display:flex;justify-content:space-between;gap:.8em 2em}
.shop{display:flex;align-items:flex-start;gap:.8em}
.shop img{flex:none;height:4em;width:auto;max-width:9em;object-fit:contain}
.shop,.occasion{flex:1 1 0}
.occasion{text-align:right}
.wanted{font-size:1.15em}
.note{margin-top:.5em;padding-left:.7em;border-left:.15em solid ${hairline}}
.keys{display:grid;grid-template-columns:repeat(3,minmax(0,1fr));border-block:.12em solid;container-type:inline-size}
.keys>div{padding:.5em 1em .55em}
.keys>div:first-child{padding-left:0}
.keys>div+div{border-left:1px solid ${hairline}}
.value{font-size:min(4.2em,var(--room) / (var(--chars)*.54));--room:(100cqi / 3 - 2em);line-height:1;margin:.06em 0 .1em;white-space:nowrap}
.keys>div:last-child .value{color:${accent}}
.detail{line-height:1.2}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:baseline;padding:.24em 1em .24em 0;border-bottom:1px solid #c8c8c8}
th{border-color:${text}}
th:last-child,td:last-child{padding-right:0;width:100%}
th,.clock,.minutes{overflow-wrap:normal;white-space:nowrap}
caption{text-align:left}
.clock{font-weight:600}
.minutes{text-align:right}
.strong td{font-weight:700;color:${accent};border-block:.1em solid}
.notices{border-left:.3em solid ${accent};padding-left:.8em;font-weight:600}
.bleed>svg,.bleed img{width:100%;height:auto}
.legend{margin-top:.6rem;display:flex;flex-wrap:wrap;gap:0 1.4em}
.legend li{margin:0}
.cut svg{width:min(100%,24rem);height:auto}
.facts dl>div,.guests dl>div{display:flex;gap:0 .8em}
.facts dt{flex:none;width:5.6em}
.guests dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,var(--chars)*.5em),1fr));gap:.24em 2em}
.guests dl>div{flex-wrap:wrap}
.cautions li{padding-left:1em;text-indent:-1em}
.cautions li::before{content:'\\2013';display:inline-block;width:1em;text-indent:0}
}
@media screen and (max-width:40rem){
header{display:block}
.shop+.occasion{margin-top:.8em}
.occasion{text-align:left}
.keys{display:block}
.keys>div{display:grid;grid-template-columns:minmax(0,2fr) minmax(0,3fr);column-gap:.8em;padding-inline:0;align-items:end}
.keys>div+div{border-left:0;border-top:1px solid ${hairline}}
.value{grid-column:2;grid-row:1/3;text-align:right;align-self:center;--room:56cqi}
.bleed{margin-inline:calc(4px - var(--edge))}
.bleed>svg{font-size:3.3px}
}
`;

const printed = ({ widthMm, heightMm }: (typeof PAPERS)[Paper]): string => `
@page{size:${widthMm}mm ${heightMm}mm;margin:0}
@media print{
main,footer{display:none}
.sheet{break-inside:avoid;text-rendering:geometricPrecision;print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
`;

/** The style sheet of a card: the flowing page for a screen, the sheet for the printer. */
export const cardStyle = (size: Paper): string => SHARED + SCREEN + printed(PAPERS[size]);
