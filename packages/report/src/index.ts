export { type CardContext, cardArticle, cardDocument, cardStyle } from "./card-document.ts";
export { pictureSvg } from "./picture.ts";
export { reportHtml } from "./report.ts";
export type { Judged, JudgedUnit, ReportInput } from "./report-input.ts";
export { tallied } from "./strip.ts";
export { waysOf } from "./ways.ts";
