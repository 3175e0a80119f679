/** The log of this session or of an earlier one as somebody reads it: what is looked for, and what is shown. */
import { batch, computed, type ReadonlySignal, signal } from '@preact/signals';
import type { LogEntry, Workbench } from '../../shared/workbench/contract.ts';
import { type Filter, filterStory } from '../../shared/workbench/story/filter.ts';
import type { Group } from '../../shared/workbench/story/groups.ts';
import type { Zone } from '../../shared/workbench/story/moment.ts';
import { searchFor } from '../../shared/workbench/story/search.ts';
import { Storyteller } from '../../shared/workbench/story/story.ts';
import type { Chapter } from '../../shared/workbench/story/types.ts';
import { EarlierSessions } from './earlier-sessions.ts';

/** An earlier session that has been opened. */
export interface OpenSession {
  readonly name: string;
  readonly entries: readonly LogEntry[];
  /** Numbers of lines that cannot be read. */
  readonly unreadable: readonly number[];
}

/** What is open under the bar of the logbook. */
export type LogPart = 'note' | 'photo' | 'save';

export class LogbookModel {
  readonly tab = signal<'now' | 'earlier'>('now');
  readonly part = signal<LogPart | null>(null);
  readonly groups = signal<ReadonlySet<Group>>(new Set());
  readonly board = signal<string | null>(null);
  readonly site = signal<string | null>(null);
  readonly words = signal('');
  /** Chapter that somebody wants to go to; taken by whoever draws the story. */
  readonly goTo = signal<number | null>(null);
  /** What changed since the last keep is spread out. */
  readonly since = signal(false);
  /** Null: this session. */
  readonly opened = signal<OpenSession | null>(null);
  readonly earlier: EarlierSessions;
  readonly entries: ReadonlySignal<readonly LogEntry[]>;
  readonly filter: ReadonlySignal<Filter>;
  readonly story: ReadonlySignal<readonly Chapter[]>;
  readonly shown: ReadonlySignal<readonly Chapter[]>;
  readonly zone: Zone;
  readonly #call: Workbench['call'];

  /** `log`: of this session. Signals that nobody reads are not worked out. */
  constructor(log: ReadonlySignal<readonly LogEntry[]>, call: Workbench['call'], zone: Zone) {
    this.zone = zone;
    this.#call = call;
    this.earlier = new EarlierSessions(call);
    this.entries = computed(() => this.opened.value?.entries ?? log.value);
    this.filter = computed(() => ({
      groups: this.groups.value,
      board: this.board.value,
      site: this.site.value,
      search: searchFor(this.words.value),
    }));
    const teller = new Storyteller(zone);
    this.story = computed(() => teller.tell(this.entries.value));
    this.shown = computed(() => filterStory(this.story.value, this.filter.value));
  }

  toggleGroup(group: Group): void {
    const next = new Set(this.groups.peek());
    if (!next.delete(group)) next.add(group);
    this.groups.value = next;
  }

  showEverything(): void {
    batch(() => {
      this.groups.value = new Set();
      this.board.value = null;
      this.site.value = null;
      this.words.value = '';
    });
  }

  show(tab: 'now' | 'earlier', part: LogPart | null = null): void {
    batch(() => {
      // Names of boards and sites are those of another session.
      if (this.opened.peek() !== null || tab !== this.tab.peek()) this.showEverything();
      this.opened.value = null;
      this.tab.value = tab;
      this.part.value = part;
    });
  }

  /** Opens an earlier session; with words, they are looked for in it. Null, or why it cannot be read. */
  async open(name: string, words = ''): Promise<string | null> {
    const outcome = await this.#call('readSession', { name });
    if (!outcome.ok) return `${outcome.problem.what} ${outcome.problem.why}`;
    batch(() => {
      this.showEverything();
      this.words.value = words;
      this.part.value = null;
      this.tab.value = 'earlier';
      this.opened.value = outcome.value;
    });
    return null;
  }
}
