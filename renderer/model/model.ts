/**
 * State and actions of the panel, without any markup. What the host tells
 * becomes signals; what the person does becomes calls.
 */
import { batch, computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { DocumentFile } from '../../shared/workbench/calls/files.ts';
import type {
  CallArgs,
  CallName,
  CallResults,
  DocumentState,
  LogEntry,
  Outcome,
  PortInfo,
  Problem,
  Scene,
  Workbench,
} from '../../shared/workbench/contract.ts';
import { dialName } from '../../shared/workbench/dial-name.ts';
import { HERE } from '../log/zone.ts';
import { BoardModel } from './board.ts';
import { CheckModel } from './check.ts';
import { NOTHING_OPEN, type OpenLayout, type OpenSite, readDocument } from './document.ts';
import { type EditKind, Edits } from './edits.ts';
import { FramesModel } from './frames.ts';
import { History } from './history.ts';
import { KeepsModel } from './keeps.ts';
import { LogbookModel } from './logbook.ts';
import { type DialPlace, Nudges } from './nudges.ts';
import { Openings } from './openings.ts';
import { PlanModel } from './plan-view.ts';
import type { Preferences } from './preferences.ts';
import { RoomDials } from './room-dials.ts';
import { SetsModel } from './sets.ts';
import { WritingModel } from './writing.ts';

/** A problem and what it is about, so that it is shown there. */
export interface Trouble {
  readonly about: { readonly board?: string; readonly dial?: DialPlace };
  readonly problem: Problem;
}

export interface Model {
  readonly preferences: Preferences;
  readonly host: Signal<Scene['host'] | null>;
  readonly open: ReadonlySignal<OpenLayout>;
  readonly ports: Signal<readonly PortInfo[]>;
  /** Boards of the layout, in its order. */
  readonly boards: ReadonlySignal<readonly BoardModel[]>;
  readonly log: Signal<readonly LogEntry[]>;
  /** The newest thing that did not work; null when put away. */
  readonly trouble: Signal<Trouble | null>;
  /** Wall time of the frame that is drawn, ms. */
  readonly wall: Signal<number>;
  readonly siteAtHand: ReadonlySignal<OpenSite | null>;
  readonly boardAtHand: ReadonlySignal<BoardModel | null>;
  readonly nudges: Nudges;
  /** Everything that can be undone. */
  readonly history: History;
  /** Where the open layout is kept, and whether all of it is; null before there is one. */
  readonly file: ReadonlySignal<DocumentFile | null>;
  /** Text of the open layout; null before there is one. */
  readonly text: ReadonlySignal<string | null>;
  /** Puts another text in the place of the layout's; `what` is the line of the log. False when it was refused. */
  change(text: string, what: string, as?: EditKind): Promise<boolean>;
  /** How the plan is looked at and arranged. */
  readonly plan: PlanModel;
  /** Which dials are shown across the room. */
  readonly roomDials: RoomDials;
  /** Two sets of times to go to and fro between. */
  readonly sets: SetsModel;
  /** The lamp check. */
  readonly check: CheckModel;
  /** The firmware that is being asked about or written. */
  readonly writing: WritingModel;
  /** What was said to the board that somebody looks at. */
  readonly frames: FramesModel;
  /** What the board that somebody looks at kept before. */
  readonly keeps: KeepsModel;
  /** The log as it is read. */
  readonly logbook: LogbookModel;
  /** Asks the host for everything afresh. */
  refresh(): Promise<void>;
  /** Takes a new host after the old one was lost. */
  attach(workbench: Workbench): Promise<void>;
  /** The host is away: nothing that was true of the boards is known. */
  lose(problem: Problem): void;
  frame(): void;
  choose(site: string): void;
  board(id: string): BoardModel;
  /** As the layout calls it, else its id. */
  boardName(id: string): string;
  /** A call whose failure is shown where it was made. */
  call<N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>>;
  /** A call whose failure is shown. */
  ask<N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>>;
}

export function createModel(
  workbench: Workbench,
  parts: { readonly now: () => number; readonly preferences: Preferences },
): Model {
  const { now, preferences } = parts;
  let host = workbench;
  let endings: (() => void)[] = [];
  const known = new Map<string, BoardModel>();
  const document = signal<DocumentState | null>(null);
  const file = signal<DocumentFile | null>(null);
  const open = computed(() => (document.value ? readDocument(document.value) : NOTHING_OPEN));
  const chosen = signal<string | null>(null);
  const trouble = signal<Trouble | null>(null);
  const log = signal<readonly LogEntry[]>([]);
  const ports = signal<readonly PortInfo[]>([]);
  const hostInfo = signal<Scene['host'] | null>(null);
  const wall = signal(now());

  const board = (id: string): BoardModel => {
    const found = known.get(id) ?? new BoardModel(id);
    known.set(id, found);
    return found;
  };
  const boards = computed(() => (open.value.layout?.boards ?? []).map(({ id }) => board(id)));
  const siteAtHand = computed(() => {
    const { sites } = open.value;
    return sites.find((site) => site.id === chosen.value) ?? sites[0] ?? null;
  });
  const boardAtHand = computed(() => {
    const site = siteAtHand.value;
    return (site && board(site.board)) ?? boards.value[0] ?? null;
  });

  const history = new History();
  const nudges: Nudges = new Nudges({
    history,
    workbench: { call: (name, args) => host.call(name, args), on: () => () => {} },
    now,
    running: ({ board: id, site, dial }) => board(id).state.value.runningDials?.[site]?.[dial] ?? null,
    confirmed: ({ board: id, site, dial }, ms) => board(id).confirmDial(site, dial, ms),
    refused: (dial, { problem }) => {
      trouble.value = { about: { board: dial.board, dial }, problem };
    },
    nameOf: ({ board: id, site, dial }) => {
      const found = open.value.sites.find((it) => it.board === id && it.number === site);
      return (found && dialName(found.names, dial)) ?? 'a time';
    },
    turned: (place, to, isBack = false) => sets.follow(place, to, isBack),
  });

  const writing = new WritingModel({
    call: (name, args) => host.call(name, args),
    trouble: ({ board: id }, problem) => {
      if (problem) trouble.value = { about: { board: id }, problem };
      else if (trouble.peek()?.about.board === id) trouble.value = null;
    },
  });

  const ask: Model['ask'] = async (name, args) => {
    const outcome = await host.call(name, args);
    const about = 'board' in args ? { board: args.board } : {};
    if (!outcome.ok) trouble.value = { about, problem: outcome.problem };
    else if (trouble.peek()?.about.board === about.board) trouble.value = null;
    return outcome;
  };

  const text = computed(() => document.value?.text ?? null);
  const edits = new Edits({
    history,
    text: () => text.peek(),
    change: (next, what, as) => ask('changeText', { text: next, what, ...(as === undefined ? {} : { as }) }),
  });

  const change: Model['change'] = (next, what, as) => edits.make(next, what, as);
  const check = new CheckModel({
    ask,
    open,
    board,
    change,
    checker: preferences.checker,
    scopeKept: preferences.checkScope,
  });

  const plan = new PlanModel({
    preferences,
    open,
    siteAtHand,
    change,
    call: (name, args) => host.call(name, args),
  });
  const roomDials = new RoomDials({ open, wanted: nudges.wanted, kept: preferences.roomDials });
  const boardName: Model['boardName'] = (id) => open.value.layout?.boards.find((it) => it.id === id)?.name ?? id;
  const sets: SetsModel = new SetsModel({
    model: { board, nudges, open, siteAtHand, boardName },
    scope: preferences.setScope,
    kept: preferences.timeSets,
  });
  const frames = new FramesModel((name, args) => host.call(name, args));
  const keeps = new KeepsModel((name, args) => host.call(name, args));
  const logbook = new LogbookModel(log, (name, args) => host.call(name, args), HERE);

  const openings = new Openings(history, (to) => ask('turnBack', { to }));
  const hearDocument = (next: DocumentState): void => {
    file.value = next.file;
    const before = document.peek();
    if (before?.version === next.version && before.text === next.text) {
      if (before.name !== next.name) document.value = next;
      return;
    }
    nudges.clear();
    if (before?.opened !== next.opened) openings.hear(before, next);
    else if (!edits.isOwn(next.text)) history.clear();
    document.value = next;
  };
  const hearBoard = (state: Scene['boards'][number]): void => {
    const isGone = state.link !== 'ready';
    if (isGone) nudges.drop(state.board);
    board(state.board).hearState(state, now());
  };
  const addToLog = (entry: LogEntry): void => {
    // A scene and an event may both bring the same entry.
    if (entry.number <= (log.peek().at(-1)?.number ?? 0)) return;
    log.value = [...log.peek(), entry];
  };

  const listen = (): void => {
    endings = [
      host.on('document', hearDocument),
      host.on('ports', (next) => {
        ports.value = next;
      }),
      host.on('board', hearBoard),
      host.on('live', (live) => batch(() => board(live.board).hearLive(live, now()))),
      host.on('lamps', (data) => board(data.board).hearLamps(data, now())),
      host.on('glow', (data) => {
        board(data.board).glow.value = data.glow;
      }),
      host.on('row', (data) => board(data.board).hearRow(data, now())),
      host.on('clock', (data) => board(data.board).hearClock(data, now())),
      host.on('log', addToLog),
    ];
  };

  const refresh = async (): Promise<void> => {
    const outcome = await host.call('look', {});
    if (!outcome.ok) {
      trouble.value = { about: {}, problem: outcome.problem };
      return;
    }
    const scene = outcome.value;
    batch(() => {
      hostInfo.value = scene.host;
      hearDocument(scene.document);
      ports.value = scene.ports;
      log.value = scene.log;
      for (const state of scene.boards) hearBoard(state);
      for (const live of scene.live) board(live.board).hearLive(live, now());
    });
  };
  listen();

  return {
    preferences,
    host: hostInfo,
    open,
    ports,
    boards,
    log,
    trouble,
    wall,
    siteAtHand,
    boardAtHand,
    nudges,
    history,
    file,
    text,
    change,
    plan,
    roomDials,
    sets,
    check,
    writing,
    frames,
    keeps,
    logbook,
    refresh,
    attach: async (next) => {
      for (const end of endings) end();
      host = next;
      openings.forget();
      listen();
      trouble.value = null;
      writing.forget();
      await refresh();
    },
    lose: (problem) => {
      batch(() => {
        for (const it of known.values()) hearBoard({ ...it.state.peek(), link: 'lost', task: null });
        trouble.value = { about: {}, problem };
      });
    },
    frame: () => {
      wall.value = now();
    },
    choose: (site) => {
      chosen.value = site;
    },
    board,
    boardName,
    call: (name, args) => host.call(name, args),
    ask,
  };
}
