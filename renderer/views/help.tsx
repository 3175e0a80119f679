import { COMMANDS } from '../commands/all.ts';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { Cautions } from './cautions.tsx';
import { HelpConnecting } from './help-connecting.tsx';
import { HelpFirmware } from './help-firmware.tsx';

/** Cautions, looks, boards, keys. */
export function Help() {
  const { model } = usePanel();
  const { singleKeys } = model.preferences;
  return (
    <>
      <Cautions />
      <div class="row">
        <CommandButton id="theme" />
        <label class="field check">
          <input
            type="checkbox"
            checked={singleKeys.value}
            onChange={(event) => {
              singleKeys.value = event.currentTarget.checked;
            }}
          />
          Single keys
        </label>
      </div>
      <HelpConnecting />
      <HelpFirmware />
      <section class="help-part" aria-label="Keys">
        <h3>Keys</h3>
        <p>On a dial: ↑ and ↓ one step, Page Up and Page Down five, or type a time: 18, 18.5 s, 1:05.</p>
        <dl class="keys">
          {COMMANDS.filter(({ shortcut }) => shortcut !== null).map((it) => (
            <div key={it.id}>
              <dt>
                <kbd>{it.shortcut}</kbd>
              </dt>
              <dd>
                <b>{it.label}.</b> {it.hint}
              </dd>
            </div>
          ))}
        </dl>
      </section>
    </>
  );
}
