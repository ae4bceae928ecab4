/** Hatches and textures that several drawings share; drawn once on the page. */
export function Patterns() {
  return (
    <svg class="patterns" width="0" height="0" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="standing" width="6" height="26" patternUnits="userSpaceOnUse"><path class="stroke-chopper" d="M1.5,26 V4 M4.5,26 V9" /></pattern>
        <pattern id="stubble" width="6" height="4" patternUnits="userSpaceOnUse"><path class="stroke-chopper" d="M1.5,4 V0" /></pattern>
        <pattern id="under-light" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path class="stroke-ink" d="M0,0 V7" /></pattern>
        <pattern id="under-dark" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path class="stroke-paper" d="M0,0 V7" /></pattern>
        <pattern id="between" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="stroke-straw" d="M0,0 V7" /></pattern>
        <pattern id="pause" width="4" height="4" patternUnits="userSpaceOnUse"><path class="stroke-hairline" d="M0,4 L4,0" /></pattern>
      </defs>
    </svg>
  );
}
