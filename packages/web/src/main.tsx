import { createRoot } from "react-dom/client";
import { createEngine } from "./engine/engine.ts";
import { httpTransport } from "./engine/http-transport.ts";
import { adoptTheme } from "./lettering.ts";
import { Sheet } from "./sheet/sheet.tsx";
import "./style.css";

adoptTheme(document);
const engine = createEngine(httpTransport());
createRoot(document.getElementById("page")!).render(<Sheet engine={engine} />);
