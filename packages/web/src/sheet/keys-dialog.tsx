import { Dialog } from "./dialog.tsx";
import { keys, localKeys } from "./keys.ts";

/** The table of keys, with the switch for single ones. */
export function KeysDialog({
  singleKeys,
  onSingleKeys,
  onClose,
}: {
  readonly singleKeys: boolean;
  readonly onSingleKeys: (on: boolean) => void;
  readonly onClose: () => void;
}) {
  return (
    <Dialog title="Keys" className="keys" onClose={onClose}>
      <h2>Keys</h2>
      <table>
        <caption className="unseen">Keys of the sheet</caption>
        <thead>
          <tr>
            <th scope="col">key</th>
            <th scope="col">does</th>
          </tr>
        </thead>
        <tbody>
          {[...keys, ...localKeys].map(({ key, says }) => (
            <tr key={key}>
              <th scope="row">
                <kbd>{key === "Z" ? "Shift z" : key === "Escape" ? "Esc" : key}</kbd>
              </th>
              <td>{says}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <label>
        <input type="checkbox" checked={singleKeys} onChange={(event) => onSingleKeys(event.target.checked)} /> Single
        letters act as keys outside text fields
      </label>
      <p>
        <button type="button" className="btn" onClick={onClose}>
          Close
        </button>
      </p>
    </Dialog>
  );
}
