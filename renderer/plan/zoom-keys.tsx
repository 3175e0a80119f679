import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';

/** Closer, further, all of it: for those without a wheel; and arranging, where there is room for it. */
export function ZoomKeys() {
  const { model } = usePanel();
  const isFar = model.preferences.distance.value === 'room';
  const isArranging = model.plan.arranging.value;
  // Across the room nothing takes room from the plan while all of it is seen.
  if (isFar && !model.plan.camera.isClose.value) return null;
  return (
    <div class="zoom-keys">
      {!isFar && !isArranging && (
        <CommandButton id="arrange" class="button square" label="Arrange">
          <svg class="sign" viewBox="0 0 24 24" aria-hidden="true">
            <path d="M12 2 V22 M2 12 H22 M9 5 L12 2 L15 5 M9 19 L12 22 L15 19 M5 9 L2 12 L5 15 M19 9 L22 12 L19 15" />
          </svg>
        </CommandButton>
      )}
      <CommandButton id="closer" class="button square" label="Closer">
        +
      </CommandButton>
      <CommandButton id="further" class="button square" label="Further">
        −
      </CommandButton>
      <CommandButton id="whole-plan" class="button square" label="Whole plan">
        <svg class="sign" viewBox="0 0 24 24" aria-hidden="true">
          <path d="M4 9 V4 H9 M15 4 H20 V9 M20 15 V20 H15 M9 20 H4 V15" />
        </svg>
      </CommandButton>
    </div>
  );
}
