/** The drawings' own rules, once for the page: its content policy allows no styles inside them. */
import { phaseChartRules } from '../../shared/drawings/phase-chart.ts';
import { stageDiagramRules } from '../../shared/drawings/stage-diagram.ts';
import { drawingStyles } from '../../shared/drawings/theme.ts';
import { timeDistanceRules } from '../../shared/drawings/time-distance.ts';
import type { Theme } from '../model/preferences.ts';

let sheet: CSSStyleSheet | null = null;

export function useDrawingRules(theme: Theme): void {
  if (sheet === null) {
    sheet = new CSSStyleSheet();
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  }
  sheet.replaceSync(drawingStyles(theme, `${phaseChartRules}${stageDiagramRules}${timeDistanceRules}`));
}
