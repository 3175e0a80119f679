/** The workbench: the open layout, its boards, the ports, the log; and the handlers of every call. */
import { dirname } from 'node:path';
import type { Chip } from '../../../shared/table/format.ts';
import type {
  BoardState,
  CallResults,
  DocumentState,
  LogKind,
  Outcome,
  PortInfo,
  Scene,
} from '../../../shared/workbench/contract.ts';
import { describeProblem, problem } from '../../../shared/workbench/problems.ts';
import type { Handlers, Telling } from '../../../shared/workbench/serve.ts';
import { shellCalls } from '../about/shell-calls.ts';
import type { BoardBook } from '../book/board-book.ts';
import type { LayoutCopy } from '../book/layout-copy.ts';
import type { CheckBook } from '../checks/check-book.ts';
import type { Clock } from '../clock.ts';
import { type FileParts, type FilePlaces, fileCalls, type Opening, openPath } from '../files/file-calls.ts';
import { FileDesk, fromText, type Origin } from '../files/file-desk.ts';
import { textNow } from '../files/read-file.ts';
import type { WriteFirmware } from '../loader/types.ts';
import type { LogFacts, SessionLog } from '../log/session-log.ts';
import { pictureCalls } from '../pictures/picture-calls.ts';
import { fine } from '../result.ts';
import { sessionCalls } from '../sessions/session-calls.ts';
import { BoardControls } from './board-controls.ts';
import { portName } from './board-link.ts';
import { BoardMemory } from './board-memory.ts';
import { BoardTasks } from './board-tasks.ts';
import { BoardUnit } from './board-unit.ts';
import { type OpenDocument, openDocument } from './document.ts';
import { EarlierKeeps } from './earlier-keeps.ts';
import { EXAMPLE } from './example.ts';
import { FirmwareTask } from './firmware-task.ts';
import { HoldNext } from './hold-next.ts';
import { KeepAgain } from './keep-again.ts';
import { LampCheck } from './lamp-check.ts';
import { Measures } from './measures.ts';
import { Neighbours } from './neighbours.ts';
import { Nudges } from './nudges.ts';
import type { Opened, SerialPorts } from './ports.ts';
import { countsOf, makeReport } from './report.ts';
import { makePdf, type PdfPrinter } from './sheet-pdf.ts';
import { type ShippedImages, shippedImages } from './shipped.ts';
import { startTogether } from './start-together.ts';
import { systemFacts } from './system-facts.ts';
import { createTelling, type Tell } from './telling.ts';
import { Tuning } from './tuning.ts';
import { type VirtualMade, type VirtualMaker, type VirtualUnit, virtualOwner, virtualPath } from './virtual-boards.ts';
import { WiringFaults } from './wiring-faults.ts';

export interface WorkbenchOptions {
  readonly shell: 'electron' | 'browser';
  readonly version: string;
  readonly clock: Clock;
  /** Wall-clock time. */
  readonly now: () => Date;
  readonly log: SessionLog;
  readonly serial: SerialPorts;
  readonly makeVirtual: VirtualMaker;
  readonly book: BoardBook;
  readonly checks: CheckBook;
  /** What was open when the app ended is opened again from it; absent: the example always is. */
  readonly layouts?: LayoutCopy;
  /** Files on the disk; absent: layouts come and go through the panel only. */
  readonly files?: FilePlaces;
  readonly writeFirmware: WriteFirmware;
  /** Default: the images that the app ships. */
  readonly images?: ShippedImages;
  /** Folder of the pictures that lie under plans; absent where none are kept. */
  readonly pictures?: string;
  /** Turns a page of HTML into a PDF file; absent where the shell cannot. */
  readonly printer?: PdfPrinter;
  /** The system's dialog for a photo: its path, or null; absent where the shell has none. */
  readonly choosePhoto?: () => Promise<string | null>;
}

type ToOpen = Pick<Opening, 'name' | 'text' | 'as'> & {
  /** One line in the past tense. */
  readonly what?: string;
  readonly kind?: LogKind | undefined;
  /** False: the open layout with changes. */
  readonly isOther?: boolean;
  /** Default: it has no file. */
  readonly origin?: Origin;
};

interface Desk {
  readonly unit: BoardUnit;
  readonly tasks: BoardTasks;
  readonly earlier: EarlierKeeps;
  readonly controls: BoardControls;
  readonly nudges: Nudges;
  readonly tuning: Tuning;
  readonly holdNext: HoldNext;
  readonly keepAgain: KeepAgain;
  readonly firmware: FirmwareTask;
  readonly check: LampCheck;
  readonly measures: Measures;
  readonly wiring: WiringFaults;
}

export class WorkbenchHost {
  readonly handlers: Handlers;
  readonly telling: Telling;
  private readonly options: WorkbenchOptions;
  private readonly tell: Tell;
  private document: OpenDocument;
  private readonly desk: FileDesk;
  private begin: () => void = () => {};
  /** Done when the first layout of this start is open. */
  private readonly begun = new Promise<void>((resolve) => {
    this.begin = resolve;
  });
  private readonly desks = new Map<string, Desk>();
  private readonly virtuals = new Map<string, VirtualUnit>();
  private ports: readonly PortInfo[] = [];
  private logFailed = false;
  private readonly memory: BoardMemory;
  private readonly neighbours: Neighbours;

  constructor(options: WorkbenchOptions) {
    this.options = options;
    this.memory = new BoardMemory(options.book);
    const { clock, serial } = options;
    this.neighbours = new Neighbours({ clock, serial, changed: () => void this.listPorts() });
    const { tell, telling } = createTelling();
    this.tell = tell;
    this.telling = telling;
    const example = openDocument(EXAMPLE.name, EXAMPLE.text, 1);
    if (!example.ok) throw new Error(`the example is no layout: ${example.problem.why}`);
    this.document = example.value;
    this.desk = new FileDesk(
      {
        copy: options.layouts,
        left: options.files?.left,
        now: options.now,
        folderOf: (path) => options.files?.folderText(dirname(path)) ?? '',
      },
      EXAMPLE.text,
    );
    this.handlers = this.makeHandlers();
    this.layOut();
  }

  /**
   * Opens the example on virtual boards. One that is fresh from the factory
   * gets the example and keeps it; what a person kept there before stays.
   */
  async start(): Promise<void> {
    this.neighbours.start();
    this.log('start', `Amberwick ${this.options.version} started.`, { data: { shell: this.options.shell } });
    await this.openFirst();
    void this.listPorts();
    await Promise.all([...this.desks.values()].map((desk) => this.startVirtual(desk)));
  }

  /** The example, or what was open when the app ended. */
  private async openFirst(): Promise<void> {
    const found = this.desk.found(textNow);
    if (!found || !(await this.open({ ...found, isOther: true })).ok) {
      // Another Amberwick may understand it: it stays in the list of what was left.
      if (found) this.options.files?.left.put({ name: found.name, text: found.text, path: null, base: null });
      this.log('document', `Opened ${this.document.state.name}.`);
    }
    this.begin();
  }

  /** A file that the system hands over; waits for the first layout of a start. */
  async openPath(path: string): Promise<Outcome<null>> {
    await this.begun;
    return openPath(this.fileParts(), path);
  }

  private async startVirtual({ unit, tasks }: Desk): Promise<void> {
    const refused = await this.connect(unit.plan.id, virtualPath(unit.plan.id));
    if (!refused.ok || unit.known.running !== null || unit.known.kept !== null) return;
    const what = this.document.state.text === EXAMPLE.text ? 'the example' : this.document.title;
    this.log('upload', `The virtual board was new and empty, so it got ${what} (${unit.plan.name}).`, {
      board: unit.plan.id,
    });
    const sent = await tasks.send(this.document.title);
    if (sent.ok) await tasks.keep();
  }

  async close(): Promise<void> {
    this.neighbours.stop();
    for (const { unit, firmware } of this.desks.values()) {
      await firmware.end();
      await unit.disconnect();
    }
    for (const virtual of this.virtuals.values()) await virtual.close();
    this.log('end', 'Amberwick was closed.');
    this.desk.note(this.document.state, true);
    this.options.log.close();
  }

  private makeHandlers(): Handlers {
    return {
      look: () => fine(this.scene()),
      openText: ({ name, text }) => this.open({ name, text }),
      changeText: ({ text, what, as }) =>
        this.open({ name: this.document.state.name, text, what, isOther: false, kind: as }),
      openExample: () => this.open(EXAMPLE),
      listPorts: async () => fine(await this.listPorts()),
      connect: ({ board, port }) => this.connect(board, port),
      disconnect: ({ board }) => this.atRest(board, (desk) => this.disconnect(desk)),
      send: ({ board }) => this.atRest(board, ({ tasks }) => tasks.send(this.document.title)),
      cancelSend: ({ board }) =>
        this.at(board, ({ tasks }) => {
          tasks.cancelSend();
          return fine(null);
        }),
      nudge: ({ board, site, dial, ms }) => this.at(board, ({ nudges }) => nudges.nudge(site, dial, ms)),
      tune: ({ board, ...args }) => this.at(board, ({ tuning }) => tuning.tune(args)),
      holdAt: ({ board, ...args }) => this.at(board, ({ holdNext }) => holdNext.arm(args)),
      startTogether: () =>
        startTogether(
          [...this.desks.values()].map(({ unit }) => unit),
          this.options.clock,
        ),
      keepEarlier: ({ board, crc }) => this.at(board, ({ keepAgain }) => keepAgain.keep(crc)),
      keep: ({ board }) => this.at(board, ({ tasks }) => tasks.keep()),
      putBack: ({ board }) => this.atRest(board, ({ tasks }) => tasks.putBack()),
      earlierKeeps: ({ board }) => this.at(board, ({ earlier }) => fine(earlier.list())),
      putBackKept: ({ board, ...args }) => this.atRest(board, ({ earlier }) => earlier.putBack(args)),
      hold: ({ board, ...args }) => this.at(board, ({ controls }) => controls.hold(args)),
      step: ({ board, ...args }) => this.at(board, ({ controls }) => controls.step(args)),
      again: ({ board, ...args }) => this.at(board, ({ controls }) => controls.again(args)),
      pause: ({ board, ...args }) => this.at(board, ({ controls }) => controls.pause(args)),
      master: ({ board, ...args }) => this.at(board, ({ controls }) => controls.master(args)),
      press: ({ board, ...args }) => this.at(board, ({ controls }) => controls.press(args)),
      power: ({ board, on }) => this.at(board, (desk) => this.power(desk, on)),
      speed: ({ board, factor }) => this.at(board, (desk) => this.speed(desk, factor)),
      remark: ({ text }) => {
        this.log('remark', text);
        return fine(null);
      },
      readLog: () => fine({ name: this.options.log.name, text: this.options.log.text() }),
      writeFirmware: ({ board, port }) => this.atPort(board, port, ({ firmware }) => firmware.write(port)),
      cancelFirmware: ({ board }) =>
        this.at(board, ({ firmware }) => {
          firmware.cancel();
          return fine(null);
        }),
      replaceBoard: ({ board, port }) => this.atPort(board, port, ({ firmware }) => firmware.replace(port)),
      readFrames: ({ board }) => this.at(board, ({ unit }) => fine(unit.frames.recent())),
      makeReport: async () => fine(await this.report()),
      beginCheck: ({ board, ...args }) => this.at(board, ({ check }) => check.begin(args)),
      light: ({ board, ...args }) => this.at(board, ({ check }) => check.light(args)),
      endCheck: ({ board }) => this.at(board, ({ check }) => check.end()),
      noteCheck: ({ board, ...args }) => this.at(board, ({ check }) => check.note(args)),
      pulse: ({ board, ...args }) => this.at(board, ({ measures }) => measures.pulse(args)),
      probe: ({ board, ...args }) => this.at(board, ({ measures }) => measures.probe(args)),
      supply: ({ board, ...args }) => this.at(board, ({ measures }) => measures.supply(args)),
      setFaults: ({ board, ...args }) => this.at(board, ({ wiring }) => wiring.setFaults(args)),
      makePdf: (args) => makePdf(args, this.options.printer),
      ...fileCalls(this.fileParts()),
      ...pictureCalls(this.options.pictures ?? null),
      ...sessionCalls({
        log: this.options.log,
        note: (kind, text, facts) => this.log(kind, text, facts),
        layoutFolder: () => {
          const { path } = this.desk.origin;
          return path === null ? null : dirname(path);
        },
        choosePhoto: this.options.choosePhoto,
      }),
      ...shellCalls(this.options.version),
    };
  }

  private scene(): Scene {
    const units = [...this.desks.values()].map(({ unit }) => unit);
    return {
      host: { shell: this.options.shell, version: this.options.version },
      document: this.state(),
      ports: this.ports,
      boards: units.map((unit) => unit.state()),
      live: units.map((unit) => unit.live()),
      log: [...this.options.log.entries],
    };
  }

  /** Opening it asks for the ports anew, as they are often the trouble. */
  private async report(): Promise<CallResults['makeReport']> {
    const { now, version, shell, log } = this.options;
    const boards = [...this.desks.values()].map(({ unit }) => ({
      state: unit.state(),
      who: unit.link.who,
      told: unit.known.told,
      counts: countsOf(unit.plan.compiled?.table),
      frames: unit.frames.recent(),
    }));
    const ports = await this.listPorts();
    return makeReport({ at: now(), version, shell, system: systemFacts(), ports, boards, log: log.entries });
  }

  private async at<T>(board: string, work: (desk: Desk) => Outcome<T> | Promise<Outcome<T>>): Promise<Outcome<T>> {
    const desk = this.desks.get(board);
    return desk ? work(desk) : problem('noSuchBoard', { board });
  }

  /** A table that starts anew drops what a lamp check has laid upon the lamps, so the check ends before. */
  private atRest<T>(board: string, work: (desk: Desk) => Promise<Outcome<T>>): Promise<Outcome<T>> {
    return this.at(board, async (desk) => {
      await desk.check.end();
      return work(desk);
    });
  }

  private state(): DocumentState {
    const { state } = this.document;
    return { ...state, ...this.desk.stateOf(state.text) };
  }

  private fileParts(): FileParts {
    return {
      places: this.options.files,
      desk: this.desk,
      document: () => this.state(),
      open: (layout) => this.open({ ...layout, isOther: true }),
      filed: (name) => this.filed(name),
      log: (kind, text) => this.log(kind, text),
    };
  }

  private async open(opening: ToOpen): Promise<Outcome<DocumentState>> {
    const { name, text, what = `Opened ${name}.`, isOther = true, kind = 'document', as } = opening;
    const opened = openDocument(name, text, this.document.state.version + 1);
    if (!opened.ok) {
      this.log('problem', `${name} could not be opened: ${opened.problem.why}`);
      return opened;
    }
    const busy = this.writtenWithout(opened.value);
    if (busy) return problem('boardBusy', busy.link.where);
    if (isOther) this.desk.leave(this.document.state, opening.origin ?? fromText(text), as);
    if (as !== undefined) this.desk.unshelve(as);
    this.document = opened.value;
    this.noteCopy();
    this.log(kind, what);
    this.tell('document', this.state());
    this.layOut(isOther);
    void this.listPorts();
    return fine(this.state());
  }

  /** A disk that does not take the copy is told once: from then on only saving keeps what is done. */
  private noteCopy(): void {
    const before = this.desk.failure;
    this.desk.note(this.document.state);
    const { failure } = this.desk;
    if (failure === null || before !== null) return;
    const found = describeProblem('layoutCopyFailed', { cause: `The system says: ${failure}.` });
    this.log('problem', `${found.what} ${found.why} ${found.next}`);
  }

  /** Saved, or compared with its file: the text stays as it is. */
  private filed(name: string): void {
    const { state } = this.document;
    this.document = { ...this.document, state: { ...state, name } };
    this.noteCopy();
    this.tell('document', this.state());
  }

  /** A board that is having its firmware written and has no place in another layout. */
  private writtenWithout({ boards }: OpenDocument): BoardUnit | null {
    const hasPlace = ({ plan }: BoardUnit) => boards.some(({ id, chip }) => id === plan.id && chip === plan.chip);
    return [...this.desks.values()].find(({ unit }) => unit.job && !hasPlace(unit))?.unit ?? null;
  }

  /** One desk for each board of the layout. Boards of the same id stay connected and are compared anew. */
  private layOut(isOther = true): void {
    const plans = new Map(this.document.boards.map((plan) => [plan.id, plan]));
    for (const [id, { unit, wiring }] of this.desks) {
      const plan = plans.get(id);
      if (plan && plan.chip === unit.plan.chip) {
        unit.replan(plan);
        wiring.replan(isOther);
      } else {
        void unit.disconnect();
        void this.virtuals.get(id)?.close();
        this.virtuals.delete(id);
        this.desks.delete(id);
      }
    }
    for (const [id, virtual] of this.virtuals) {
      virtual.connectChain(plans.get(id)?.compiled?.table.chain ?? null);
    }
    for (const plan of plans.values()) {
      if (this.desks.has(plan.id)) continue;
      const unit = new BoardUnit(plan, {
        clock: this.options.clock,
        tell: this.tell,
        log: (kind, text, facts) => this.log(kind, text, facts),
        open: (port) => this.openPort(port),
        portsMoved: () => void this.listPorts(),
        virtual: (port) => this.virtuals.get(virtualOwner(port ?? '') ?? '') ?? null,
        now: this.options.now,
        neighbours: this.neighbours,
        memory: this.memory,
        layoutName: () => this.document.title,
        images: this.options.images ?? shippedImages,
      });
      const tasks = new BoardTasks(unit);
      this.desks.set(plan.id, {
        unit,
        tasks,
        earlier: new EarlierKeeps(unit, tasks),
        controls: new BoardControls(unit),
        nudges: new Nudges(unit),
        tuning: new Tuning(unit),
        holdNext: new HoldNext(unit),
        keepAgain: new KeepAgain(unit, tasks),
        firmware: new FirmwareTask(unit, this.options.serial, this.options.writeFirmware),
        check: new LampCheck(unit, this.options.checks, () => this.document.title),
        measures: new Measures(unit),
        wiring: new WiringFaults(unit),
      });
      unit.tellState();
    }
    for (const { check } of this.desks.values()) void check.replanned();
  }

  private async listPorts(): Promise<readonly PortInfo[]> {
    const real = (await this.options.serial.list()).map(({ path, label, likely }) => ({
      path,
      label,
      likely,
      virtual: false,
    }));
    const virtual = this.document.boards.map((plan) => ({
      path: virtualPath(plan.id),
      label: this.document.boards.length === 1 ? 'Virtual board' : `Virtual board for ${plan.name}`,
      likely: false,
      virtual: true,
    }));
    const ports = [...real, ...virtual].map(
      (port): PortInfo => ({ ...port, board: this.holder(port.path)?.plan.id ?? null }),
    );
    const isNews = JSON.stringify(ports) !== JSON.stringify(this.ports);
    this.ports = ports;
    if (isNews) this.tell('ports', ports);
    return ports;
  }

  private holder(port: string): BoardUnit | null {
    const holds = ({ unit }: Desk) => unit.port === port && (unit.link.state !== 'off' || unit.job !== null);
    return [...this.desks.values()].find(holds)?.unit ?? null;
  }

  /** Work with a port that no other board of the layout has. */
  private atPort<T>(board: string, port: string, work: (desk: Desk) => Promise<Outcome<T>>): Promise<Outcome<T>> {
    return this.at(board, async (desk) => {
      const holder = this.holder(port);
      if (holder && holder !== desk.unit) {
        return problem('portTaken', { board: holder.plan.name, port: portName(port) });
      }
      return work(desk);
    });
  }

  private connect(board: string, port: string): Promise<Outcome<BoardState>> {
    return this.atPort(board, port, async ({ unit }) => {
      if (unit.job) return problem('boardBusy', unit.link.where);
      const refused = await unit.connect(port);
      if (refused) {
        unit.log('problem', `${unit.plan.name} was not connected: ${refused.what}`, { code: refused.code, port });
      }
      // Asking the system for its ports can take seconds; nobody has to wait for that here.
      void this.listPorts();
      return refused ? { ok: false, problem: refused } : fine(unit.state());
    });
  }

  private async disconnect({ unit }: Desk): Promise<Outcome<BoardState>> {
    if (unit.job) return problem('boardBusy', unit.link.where);
    const { port } = unit.link;
    await unit.disconnect();
    if (port) this.log('connection', `Disconnected ${unit.plan.name} from ${portName(port)}.`, { board: unit.plan.id });
    void this.listPorts();
    return fine(unit.state());
  }

  private async openPort(port: string): Promise<Opened> {
    const owner = virtualOwner(port);
    if (owner === null) return this.options.serial.open(port);
    const plan = this.document.boards.find(({ id }) => id === owner);
    if (!plan) return { ok: false, error: { kind: 'missing', detail: `the layout has no board "${owner}"` } };
    const unit = this.virtualFor(owner, plan.chip);
    if (!unit.ok) return { ok: false, error: { kind: 'stopped', detail: unit.error } };
    // The greeting has a time limit; the loading of the emulator is not its fault.
    await unit.value.ready;
    const opened = unit.value.open();
    // One that has stopped is made anew at the next attempt.
    if (!opened.ok && opened.error.kind === 'stopped') this.virtuals.delete(owner);
    return opened;
  }

  private virtualFor(board: string, chip: Chip): VirtualMade {
    const known = this.virtuals.get(board);
    if (known?.chip === chip) return { ok: true, value: known };
    void known?.close();
    const made = this.options.makeVirtual(board, chip);
    if (!made.ok) return made;
    made.value.connectChain(this.desks.get(board)?.unit.plan.compiled?.table.chain ?? null);
    this.desks.get(board)?.wiring.wire(made.value);
    made.value.power(true);
    this.virtuals.set(board, made.value);
    return made;
  }

  private async power({ unit }: Desk, on: boolean): Promise<Outcome<BoardState>> {
    const { virtual } = unit;
    if (!virtual) return problem('notVirtual', unit.link.where);
    if (virtual.powered !== on) {
      this.log('power', `Switched the virtual board ${on ? 'on' : 'off'} (${unit.plan.name}).`, {
        board: unit.plan.id,
        data: { on },
      });
      virtual.power(on);
      unit.tellState();
      if (on) await unit.link.lookNow();
    }
    return fine(unit.state());
  }

  private speed({ unit }: Desk, factor: number): Outcome<null> {
    const { virtual } = unit;
    if (!virtual) return problem('notVirtual', unit.link.where);
    virtual.setSpeed(factor);
    const pace = factor === 0 ? 'the fastest it goes' : `${factor} times real time`;
    this.log('control', `Set the virtual board to ${pace} (${unit.plan.name}).`, {
      board: unit.plan.id,
      data: { factor },
    });
    unit.tellState();
    return fine(null);
  }

  private log(kind: LogKind, text: string, facts: LogFacts = {}): void {
    const { log } = this.options;
    const name = this.document.boards.find(({ id }) => id === facts.board)?.name;
    const named = facts.names ? {} : { ...(name === undefined ? {} : { names: { board: name } }) };
    this.tell('log', log.add(kind, text, { ...named, ...facts }));
    if (log.failure === null || this.logFailed) return;
    this.logFailed = true;
    const { problem: found } = problem('logFailed', { cause: `The system says: ${log.failure}.` });
    this.tell('log', log.add('problem', `${found.what} ${found.why} ${found.next}`));
  }
}
