/**
 * A host for the panel's tests, without ports, files or clocks: the open layout
 * is Penmarrow, its boards are reference interpreters, and time passes when the
 * test says so. Every call is noted.
 */
import { readDocument } from '../../renderer/model/document.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { writeChanges } from '../../shared/workbench/changes.ts';
import type {
  BoardState,
  CallArgs,
  CallName,
  CallResults,
  DocumentState,
  EventName,
  Events,
  Frame,
  LogEntry,
  LogKind,
  Outcome,
  PortInfo,
  Workbench,
} from '../../shared/workbench/contract.ts';
import { dialName } from '../../shared/workbench/dial-name.ts';
import { fileName } from '../../shared/workbench/file-names.ts';
import { problem } from '../../shared/workbench/problems.ts';
import { answerCall, type Handlers } from '../../shared/workbench/serve.ts';
import { timeText } from '../../shared/workbench/words.ts';
import { FakeBoard, SHIPPED } from './fake-board.ts';
import { FakeFiles } from './fake-files.ts';
import { FakeKeeps } from './fake-keeps.ts';
import { FakeSessions } from './fake-sessions.ts';
import { FakeWriting } from './fake-writing.ts';

/** A board with this firmware, an older one, one that this app cannot speak to, another program, or nothing on it. */
export type Plugged = 'ours' | 'older' | 'ancient' | 'foreign' | 'bare';

export class FakeWorkbench implements Workbench {
  readonly calls: { readonly name: CallName; readonly args: unknown }[] = [];
  boards: FakeBoard[] = [];
  /** When set, the next call of this name gives this problem. */
  refuseNext: { name: CallName; code: string; what: string } | null = null;
  /** When set, calls of this name wait until `release`. */
  stall: CallName | null = null;
  /** What is plugged in at which port. */
  readonly plugged = new Map<string, Plugged>([['/dev/ttyUSB0', 'ours']]);
  /** What was said to each board. */
  readonly frames = new Map<string, Frame[]>();
  /** Writing goes on when the test says so. */
  readonly writing = new FakeWriting();
  /** What each board kept before. */
  readonly keeps = new FakeKeeps();
  /** Earlier sessions and photos. */
  readonly sessions = new FakeSessions();
  /** Pictures by their id; a test takes one away by deleting it. */
  readonly pictures = new Map<string, string>();
  #waiting: (() => void)[] = [];
  #document: DocumentState;
  /** Layout files and templates. */
  readonly files: FakeFiles;
  readonly #log: LogEntry[] = [];
  readonly #listeners = new Map<EventName, Set<(data: never) => void>>();

  constructor(text: string, name = 'penmarrow.json') {
    this.files = new FakeFiles(text);
    this.#document = { name, text, version: 1, ...this.files.state(text) };
    this.#makeBoards();
    this.#write('start', 'Started Amberwick.');
  }

  /** As the app starts: the virtual board holds and runs the example. */
  startExample(): void {
    const board = this.boards[0];
    if (!board) return;
    board.connect(`virtual:${board.compiled.id}`);
    board.start();
    board.keep();
    this.keeps.note(board);
    this.#write('upload', `Sent Penmarrow to the ${board.compiled.name} and kept it.`, board.compiled.id);
  }

  advance(ms: number): void {
    for (const board of this.boards) board.advance(ms);
  }

  tell<N extends EventName>(name: N, data: Events[N]): void {
    for (const listener of [...(this.#listeners.get(name) ?? [])]) (listener as (data: Events[N]) => void)(data);
  }

  release(): void {
    this.stall = null;
    for (const go of this.#waiting.splice(0)) go();
  }

  on<N extends EventName>(name: N, listener: (data: Events[N]) => void): () => void {
    const set = this.#listeners.get(name) ?? new Set();
    this.#listeners.set(name, set);
    set.add(listener as (data: never) => void);
    return () => set.delete(listener as (data: never) => void);
  }

  async call<N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>> {
    this.calls.push({ name, args });
    if (this.stall === name) await new Promise<void>((go) => this.#waiting.push(go));
    await Promise.resolve();
    if (this.refuseNext?.name === name) {
      const { code, what } = this.refuseNext;
      this.refuseNext = null;
      return { ok: false, problem: { code, what, why: 'A test wanted it.', next: 'Try again.' } };
    }
    return (await answerCall(this.#handlers(), name, args)) as Outcome<CallResults[N]>;
  }

  #makeBoards(): void {
    this.boards = readDocument(this.#document).boards.map(
      (compiled) => new FakeBoard(compiled, (name, data) => this.tell(name, data)),
    );
  }

  #ports(): PortInfo[] {
    const holder = (path: string) => this.boards.find((board) => board.state.port === path)?.compiled.id ?? null;
    const virtual = this.boards.map(({ compiled }) => `virtual:${compiled.id}`);
    const real = [...this.plugged.keys()];
    return [
      ...virtual.map((path) => ({ path, label: 'Virtual board', virtual: true, likely: true, board: holder(path) })),
      ...real.map((path) => ({ path, label: 'USB serial port', virtual: false, likely: true, board: holder(path) })),
    ];
  }

  #write(kind: LogKind, text: string, board?: string, frames?: readonly string[], data?: LogEntry['data']): void {
    const entry: LogEntry = {
      number: this.#log.length + 1,
      at: `2026-01-01T19:00:${String(this.#log.length % 60).padStart(2, '0')}+00:00`,
      kind,
      text,
      ...(board === undefined ? {} : { board }),
      ...(frames === undefined ? {} : { frames }),
      ...(data === undefined ? {} : { data }),
      ...(board === undefined ? {} : { names: this.#names(board, data) }),
    };
    this.#log.push(entry);
    this.tell('log', entry);
  }

  #names(id: string, data: LogEntry['data']): NonNullable<LogEntry['names']> {
    const compiled = this.#board(id)?.compiled;
    const named = { board: compiled?.name ?? id };
    const site = typeof data?.site === 'number' ? compiled?.sites[data.site] : undefined;
    if (!site) return named;
    const dial = typeof data?.dial === 'number' ? dialName(site, data.dial) : null;
    return { ...named, site: site.name, ...(dial === null ? {} : { dial }) };
  }

  /** One line of the log; with what was said before it where something went wrong. */
  note(kind: LogKind, text: string, frames?: readonly string[]): void {
    this.#write(kind, text, undefined, frames);
  }

  /** The host tries a port: what is plugged in there decides. */
  #meet(id: string, port: string): Outcome<BoardState> {
    const board = this.#board(id);
    const what = port.startsWith('virtual:') ? 'ours' : this.plugged.get(port);
    const { name } = board?.compiled ?? { name: id };
    if (!board) return problem('noSuchBoard', { board: id });
    if (what === 'ours' || what === 'older') {
      board.connect(port, what === 'ours' ? undefined : '1.0.0');
      this.tell('ports', this.#ports());
      this.#write('connection', `Connected ${name} at ${port}.`, id);
      return { ok: true, value: board.state };
    }
    const codes = { bare: 'noAnswer', foreign: 'foreignFirmware', ancient: 'protocolOld' } as const;
    const found = problem(what ? codes[what] : 'portMissing', { board: name, port });
    board.fail(port, found.problem);
    this.tell('ports', this.#ports());
    return found;
  }

  async #writeTo(id: string, port: string, name: 'firmware' | 'replace'): Promise<Outcome<BoardState>> {
    const board = this.#board(id);
    if (!board) return problem('noSuchBoard', { board: id });
    board.become({ port, link: 'off', problem: null });
    const code = await this.writing.run(board, name);
    board.become({ task: null });
    if (code !== null) {
      const failed = problem(code, { board: board.compiled.name, port });
      board.fail(port, failed.problem);
      return failed;
    }
    this.plugged.set(port, 'ours');
    this.#meet(id, port);
    if (name === 'replace') {
      board.start();
      board.keep();
    }
    this.#write('firmware', `Wrote firmware ${SHIPPED} to ${board.compiled.name}.`, id);
    return { ok: true, value: board.state };
  }

  #open(name: string, text: string, what: string, as: LogKind = 'document'): Outcome<DocumentState> {
    this.#document = { name, text, version: this.#document.version + 1, ...this.files.state(text) };
    this.#makeBoards();
    this.tell('document', this.#document);
    for (const it of this.boards) it.report();
    this.#write(as, what);
    return { ok: true, value: this.#document };
  }

  #save(name: string): Outcome<null> {
    const { text } = this.#document;
    this.files.save(name, text);
    this.#document = { ...this.#document, name, ...this.files.state(text) };
    this.tell('document', this.#document);
    this.#write('document', `Saved ${name}.`);
    return { ok: true, value: null };
  }

  #board(id: string): FakeBoard | undefined {
    return this.boards.find(({ compiled }) => compiled.id === id);
  }

  #handlers(): Handlers {
    const fine = <T>(value: T): Outcome<T> => ({ ok: true, value });
    const refuse = (what: string) => ({
      ok: false as const,
      problem: { code: 'refused', what, why: 'The board said so.', next: 'Choose another.' },
    });
    /** The board does something, then its state is the answer. */
    const after = (id: string, does: (board: FakeBoard, who: string) => void): Outcome<BoardState> => {
      const board = this.#board(id);
      if (!board) return refuse('no such board');
      does(board, board.compiled.name.toLowerCase());
      return fine(board.state);
    };
    const quiet = (outcome: Outcome<unknown>): Outcome<null> => (outcome.ok ? fine(null) : outcome);
    return {
      look: () =>
        fine({
          host: { shell: 'browser' as const, version: '0.1.0' },
          document: this.#document,
          ports: this.#ports(),
          boards: this.boards.map((it) => it.state),
          live: this.boards.filter((it) => it.interpreter).map((it) => it.live()),
          log: [...this.#log],
        }),
      openText: ({ name, text }) => {
        this.files.leave(this.#document, text);
        return this.#open(name, text, `Opened ${name}.`);
      },
      changeText: ({ text, what, as }) => {
        const held = this.boards.flatMap(({ compiled, state }) =>
          state.port ? [{ id: compiled.id, port: state.port, check: state.check, dials: state.runningDials }] : [],
        );
        const tables = new Map(this.boards.map(({ compiled }) => [compiled.id, compiled.table]));
        const outcome = this.#open(this.#document.name, text, what, as);
        // A change leaves the boards connected.
        for (const { id, port, check, dials } of held) {
          const board = this.#board(id);
          board?.connect(port);
          board?.become({ check });
          const [now, before] = [board?.compiled.table, tables.get(id)];
          // What moves no lamp and no row leaves the table as it is, with the times that run.
          if (!dials || !board || !now || !before || !isSameTable(bare(now), bare(before))) continue;
          board.start(dials);
          board.become({ needsSending: !isSameTable(now.programs, before.programs) });
        }
        return outcome;
      },
      openExample: () => fine(this.#document),
      listPorts: () => fine(this.#ports()),
      connect: ({ board: id, port }) => this.#meet(id, port),
      disconnect: ({ board: id }) =>
        after(id, (board, who) => {
          board.disconnect();
          this.tell('ports', this.#ports());
          this.#write('connection', `Disconnected the ${who}.`, id);
        }),
      send: ({ board: id }) =>
        after(id, (board, who) => {
          board.start();
          board.become({ needsSending: false });
          this.#write('upload', `Sent the layout to the ${who}.`, id);
        }),
      cancelSend: () => fine(null),
      nudge: ({ board: id, site, dial, ms: wanted }) => {
        const board = this.#board(id);
        const from = board?.interpreter?.dial(site, dial) ?? 0;
        const ms = board?.interpreter?.setDial(site, dial, wanted) ?? null;
        if (!board || ms === null) return refuse('outside limits');
        board.report();
        const names = board.compiled.sites[site];
        const text = `${names?.name}, ${names?.dials[dial]?.name}: ${timeText(from)} to ${timeText(ms)}.`;
        const changes = loggedChanges(board, [{ site, dial, from, to: ms }]);
        this.#write('nudge', text, id, undefined, { site, dial, from, to: ms, changes });
        return fine({ ms });
      },
      tune: ({ board: id, changes, what, who }) => {
        const board = this.#board(id);
        if (!board?.interpreter) return refuse('no board');
        const done = changes.flatMap(({ site, dial, ms }) => {
          const from = board.interpreter?.dial(site, dial) ?? 0;
          const to = board.interpreter?.setDial(site, dial, ms) ?? null;
          return to === null ? [] : [{ site, dial, from, to }];
        });
        board.report();
        this.#write('nudge', `${what}.`, id, undefined, { who, changes: loggedChanges(board, done) });
        return fine({ changes: done.map(({ site, dial, to }) => ({ site, dial, ms: to })) });
      },
      holdAt: ({ board: id, site, rows }) =>
        quiet(
          after(id, (board) => {
            board.become({
              arms: [
                ...board.state.arms.filter((it) => it.site !== site),
                ...(rows.length > 0 ? [{ site, rows }] : []),
              ],
            });
          }),
        ),
      startTogether: () => {
        for (const board of this.boards) {
          board.interpreter?.again();
          this.tell('live', board.live());
        }
        return fine({
          boards: this.boards.map(({ compiled }) => compiled.id),
          within: this.boards.length > 1 ? 4 : null,
        });
      },
      keepEarlier: ({ board: id, crc }) => {
        const board = this.#board(id);
        if (!board || !this.keeps.keepEarlier(board, crc))
          return problem('keepOther', { board: board?.compiled.name ?? id });
        this.#write('keep', `Kept on the ${board.compiled.name.toLowerCase()} what it kept before.`, id);
        return fine({ keeps: board.state.keeps, stood: 0 });
      },
      keep: ({ board: id }) => {
        const outcome = after(id, (board, who) => {
          board.keep();
          this.keeps.note(board);
          this.#write('keep', `Kept on the ${who}: the running times.`, id);
        });
        return outcome.ok ? fine({ keeps: outcome.value.keeps }) : outcome;
      },
      putBack: ({ board: id }) =>
        after(id, (board, who) => {
          board.putBack();
          this.#write('putBack', `Put the kept times back on the ${who}.`, id);
        }),
      earlierKeeps: ({ board: id }) => {
        const board = this.#board(id);
        return board ? fine(this.keeps.list(board)) : refuse('no such board');
      },
      putBackKept: ({ board: id, at }) => {
        const board = this.#board(id);
        if (!board || !this.keeps.putBack(board, at)) return problem('keepGone', { board: id });
        this.#write('putBack', `Put back and kept on the ${board.compiled.name.toLowerCase()} an earlier table.`, id);
        return fine(board.state);
      },
      hold: ({ board: id, site, on }) => quiet(after(id, (board) => board.hold(site, on))),
      step: ({ board: id, site }) => fine({ row: this.#board(id)?.interpreter?.step(site) ?? 0 }),
      again: ({ board: id, site }) =>
        quiet(
          after(id, (board) => {
            board.interpreter?.again(site ?? undefined);
            this.tell('live', board.live());
          }),
        ),
      pause: () => fine(null),
      master: () => fine(null),
      press: () => fine(null),
      power: ({ board: id, on }) =>
        after(id, (board, who) => {
          board.power(on);
          this.#write('power', `Switched the ${who} ${on ? 'on' : 'off'}.`, id);
        }),
      speed: ({ board: id, factor }) => quiet(after(id, (board) => board.setSpeed(factor))),
      remark: ({ text }) => {
        this.#write('remark', text);
        return fine(null);
      },
      readLog: () =>
        fine({ name: 'amberwick-log.jsonl', text: this.#log.map((entry) => `${JSON.stringify(entry)}\n`).join('') }),
      writeFirmware: ({ board: id, port }) => this.#writeTo(id, port, 'firmware'),
      cancelFirmware: () => {
        this.writing.cancel();
        return fine(null);
      },
      replaceBoard: ({ board: id, port }) => this.#writeTo(id, port, 'replace'),
      readFrames: ({ board: id }) => fine([...(this.frames.get(id) ?? [])]),
      beginCheck: ({ board: id }) => quiet(after(id, (board) => board.become({ checking: true }))),
      light: () => fine(null),
      endCheck: ({ board: id }) => quiet(after(id, (board) => board.become({ checking: false }))),
      noteCheck: ({ board: id, record, said }) =>
        after(id, (board) => {
          board.become({ check: record });
          this.#write('check', said, id);
        }),
      pulse: () => fine(null),
      probe: () => fine({ level: 1, rest: null, lit: null }),
      supply: () => fine({ millivolts: 5000, least: 4980, reference: null }),
      setFaults: ({ board: id }) => after(id, () => {}),
      makePdf: () => refuse('no pdf'),
      chooseFile: () => problem('badRequest', {}),
      listFiles: () => fine(this.files.list()),
      openFile: ({ id }) => {
        const text = this.files.folder.get(id);
        if (text === undefined) return problem('fileGone', { file: id });
        this.files.leave(this.#document, text, 'Layouts');
        return quiet(this.#open(id, text, `Opened ${id}.`));
      },
      forgetFile: () => fine(null),
      turnBack: ({ to }) => {
        const found = this.files.turnBack(this.#document, to);
        if (!found) return problem('notOpenBefore', {});
        return quiet(this.#open(found.name, found.text, `Put ${found.name} back.`));
      },
      readSaved: () => (this.files.base === null ? problem('noFileYet', {}) : fine({ text: this.files.base })),
      save: () => (this.files.isFiled ? this.#save(this.#document.name) : problem('noFileYet', {})),
      saveAs: ({ name, over }) => {
        const checked = fileName(name);
        if (!checked.ok) return problem('badFileName', { cause: checked.why });
        if (!over && this.files.folder.has(checked.name)) return problem('nameTaken', { file: checked.name });
        return this.#save(checked.name);
      },
      newLayout: ({ name, text, what }) => {
        this.files.leave(this.#document, null);
        return quiet(this.#open(name, text, what));
      },
      listTemplates: () => fine(this.files.templates),
      keepTemplate: ({ name, text }) =>
        this.files.keepTemplate(name, text) ? fine(null) : problem('templateNotKept', {}),
      dropTemplate: ({ id }) => {
        this.files.dropTemplate(id);
        return fine(null);
      },
      addPicture: ({ base64 }) => {
        const id = String(this.pictures.size).padStart(64, '0');
        this.pictures.set(id, base64);
        return fine({ id, width: 1, height: 1 });
      },
      picture: ({ id }) => {
        const base64 = this.pictures.get(id);
        return base64 === undefined ? problem('noPicture', {}) : fine({ type: 'image/png', base64 });
      },
      ...this.sessions.calls((kind, text, data) => this.#write(kind, text, undefined, undefined, data)),
      setMenus: () => fine(null),
      about: () => fine({ version: '0.1.0', firmware: [], runtime: [], licences: [] }),
      makeReport: () =>
        fine({
          name: 'amberwick-report.txt',
          text: `Amberwick 0.1.0\n\nWhat happened\n${this.#log.map(({ at, kind }) => `${at}  ${kind}\n`).join('')}`,
        }),
    };
  }
}

function loggedChanges(
  { compiled }: FakeBoard,
  changes: readonly { readonly site: number; readonly dial: number; readonly from: number; readonly to: number }[],
): string {
  return writeChanges(
    changes.map(({ site, dial, from, to }) => ({
      site: compiled.sites[site]?.id ?? '',
      dial: compiled.sites[site]?.dials[dial]?.id ?? '',
      from,
      to,
    })),
  );
}

/** Without its times and their limits. */
function bare({ programs, sites, ...table }: BoardTable): unknown {
  return {
    ...table,
    programs: programs.map(({ dials, ...program }) => ({ ...program, dials: dials.length })),
    sites: sites.map(({ dials, offset, ...site }) => site),
  };
}

function isSameTable(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
