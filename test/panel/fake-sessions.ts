/** Earlier sessions, photos and corrections of the fake host, without a disk. */
import type { EarlierSession, SESSION_CALLS } from '../../shared/workbench/calls/sessions.ts';
import type { LogEntry, LogKind } from '../../shared/workbench/contract.ts';
import { problem } from '../../shared/workbench/problems.ts';
import type { Handlers } from '../../shared/workbench/serve.ts';
import { matches } from '../../shared/workbench/story/filter.ts';
import { linesOf } from '../../shared/workbench/story/lines.ts';
import { searchFor } from '../../shared/workbench/story/search.ts';

export class FakeSessions {
  /** By name, the newest first; null: cannot be read. */
  readonly files = new Map<string, readonly LogEntry[] | null>();
  /** What the person picks in the system's dialog; undefined where there is none. */
  photo: string | null | undefined;

  calls(
    write: (kind: LogKind, text: string, data?: LogEntry['data']) => void,
  ): Pick<Handlers, keyof typeof SESSION_CALLS> {
    const fine = <T>(value: T) => ({ ok: true as const, value });
    const part = (before: string | null, most: number) => {
      const names = [...this.files.keys()];
      const begin = before === null ? 0 : names.indexOf(before) + 1;
      return { shown: names.slice(begin, begin + most), rest: begin + most < names.length };
    };
    const gone = (name: string) => problem('sessionUnreadable', { detail: name });
    return {
      listSessions: ({ before, most }) => {
        const { shown, rest } = part(before, most);
        return fine({ sessions: shown.map((name) => this.#head(name)), total: this.files.size, rest });
      },
      readSession: ({ name }) => {
        const entries = this.files.get(name);
        return entries ? fine({ name, entries, unreadable: [] }) : gone(name);
      },
      sessionText: ({ name }) => {
        const entries = this.files.get(name);
        return entries ? fine({ name, text: linesOf(entries) }) : gone(name);
      },
      searchSessions: ({ words, groups, before, most }) => {
        const { shown, rest } = part(before, most);
        const found = shown.flatMap((name) => {
          const all = this.files.get(name) ?? [];
          const entries = all.filter((entry) => matches(entry, new Set(groups), searchFor(words)));
          return entries.length === 0 ? [] : [{ name, from: all[0]?.at ?? '', count: entries.length, entries }];
        });
        const unreadable = shown.filter((name) => this.files.get(name) === null);
        return fine({ found, looked: shown.length, unreadable, next: rest ? (shown.at(-1) ?? null) : null });
      },
      correctRemark: ({ number, text }) => {
        write('remark', text || 'Took a note back.', { corrects: number, ...(text === '' ? { takenBack: true } : {}) });
        return fine(null);
      },
      attachPhoto: ({ path, caption }) => {
        const told = path ?? this.photo;
        if (told === undefined) return problem('noPhotoChooser', {});
        if (told !== null) {
          const from = told.includes('/') ? 'computer' : 'name';
          write('photo', caption === '' ? `Photo ${told}.` : `Photo ${told}: ${caption}`, { path: told, from });
        }
        return fine(null);
      },
    };
  }

  #head(name: string): EarlierSession {
    const entries = this.files.get(name) ?? [];
    return {
      name,
      from: entries[0]?.at ?? '',
      to: entries.at(-1)?.at ?? '',
      entries: entries.length,
      layouts: ['Penmarrow'],
      ended: entries.at(-1)?.kind === 'end',
      unreadable: 0,
      problem: this.files.get(name) === null ? 'It is no longer there.' : null,
    };
  }
}
