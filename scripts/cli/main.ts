/** The commands of `amberwick`, what they take, and how they end. */
import { Command, CommanderError } from 'commander';
import { chart } from './chart.ts';
import { check } from './check.ts';
import { electrics } from './electrics.ts';
import { firmware } from './firmware.ts';
import { identify } from './identify.ts';
import { image } from './image.ts';
import { keep } from './keep.ts';
import { storyOfLog } from './log.ts';
import { nudge } from './nudge.ts';
import { type Console, type ExitCode, type Report, report } from './output.ts';
import { ports } from './ports.ts';
import { helpReport } from './report.ts';
import { run } from './run.ts';
import { scale } from './scale.ts';
import { schema } from './schema.ts';
import { send } from './send.ts';
import { sheet } from './sheet.ts';
import { split } from './split.ts';
import { table } from './table.ts';
import { watch } from './watch.ts';
import { wave } from './wave.ts';

const standard: Console = {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  progress: (done, total) => {
    if (!process.stderr.isTTY) return;
    process.stderr.write(`\r${Math.floor((done / total) * 100)} %${done >= total ? '\n' : ''}`);
  },
};

/** Who reads the output may stop at any line, as `head` does: then there is nobody left to tell. */
function endWithReader(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    process.exit(error.code === 'EPIPE' ? 0 : 1);
  });
}

const PORT = ['--port <port>', 'serial port, `virtual`, or `virtual:` and the id of a board'] as const;
const DATA = ['--data <folder>', 'where virtual boards keep their EEPROM'] as const;
const BOARD = ['--board <id>', 'which board, where the layout has several'] as const;

/** Runs one command line (`argv` as Node gives it) and returns its exit code. */
export async function main(argv: readonly string[], io: Console = standard): Promise<ExitCode> {
  if (io === standard) endWithReader();
  const json = argv.includes('--json');
  // Anything else would spoil JSON that is read together with standard error.
  const quiet: Console = json ? { out: io.out, err: () => {}, progress: () => {} } : io;
  let exit: ExitCode = 0;
  const done = async (outcome: Report | Promise<Report>) => {
    exit = report(io, json, await outcome);
  };
  const program = build(done, quiet);
  try {
    await program.parseAsync([...argv]);
  } catch (error) {
    if (error instanceof CommanderError) return usage(io, json, error);
    return report(io, json, { exit: 1, problem: crash(error) });
  }
  return exit;
}

function build(done: (outcome: Report | Promise<Report>) => Promise<void>, io: Console): Command {
  const program = new Command('amberwick');
  program.description('Road lights for scale model layouts: check, send, tune, run. Never for real traffic.');
  program.exitOverride();
  program.configureOutput({ writeOut: io.out, writeErr: io.err });
  const command = (words: string, description: string): Command =>
    program
      .command(words)
      .description(description)
      .option('--json', 'one JSON object instead of text')
      .exitOverride()
      .configureOutput({ writeOut: io.out, writeErr: io.err });

  command('check <file>', 'say everything that is wrong with a layout').action((file) => done(check(file)));
  command('table <file>', 'show the phase tables')
    .option('--site <site>', 'only this site')
    .action((file, options) => done(table(file, options)));
  command('chart <file>', 'draw a site as an SVG file')
    .requiredOption('--site <site>', 'which site')
    .option('--kind <kind>', 'phases, stages, or distance for junctions on one common cycle', 'phases')
    .option('--speed <speed>', 'of the traffic in a distance chart', '30mph')
    .option('--theme <theme>', 'dark or light; else as the reader likes')
    .option('-o, --output <out>', 'file to write instead of printing')
    .action((file, options) => done(chart(file, options)));
  command('schema', 'print the rules of the layout file as JSON Schema').action(() => done(schema()));
  command('electrics <file>', 'show resistors, currents, limits and parts')
    .option(...BOARD)
    .action((file, options) => done(electrics(file, options)));
  command('scale [length]', 'turn a length or a speed of the street into one of the model; without one, list sizes')
    .requiredOption('--scale <scale>', 'OO, HO, N, ... or a ratio: 1:50')
    .option('--back', 'the length is one of the model')
    .action((text, options) => done(scale(text, options)));
  command('image <file>', 'write the board image')
    .requiredOption('-o, --output <out>', 'file to write')
    .option(...BOARD)
    .action((file, options) => done(image(file, options)));
  command('run <file>', 'run a layout on the virtual board as fast as it goes')
    .requiredOption('--hours <hours>', 'board time')
    .option('--vcd <out>', 'write lamp edges as a value change dump')
    .option(...BOARD)
    .action((file, options) => done(run(file, options, io)));
  command('sheet <file>', 'make the wiring sheet that goes under the baseboard')
    .requiredOption('-o, --output <out>', 'file to write: .html to print, .csv for a spreadsheet')
    .option('--board <id>', 'only this board')
    .option('--paper <paper>', 'a4 or letter', 'a4')
    .action((file, options) => done(sheet(file, options)));
  command('split <file>', 'share the greens of a junction out by its traffic')
    .requiredOption('--site <site>', 'the junction')
    .requiredOption('--flows <list>', 'vehicles an hour, one number a stage: 400,250')
    .option('--saturation <list>', 'vehicles an hour that could leave, 1800 a lane: one number, or one a stage')
    .option('--lost <seconds>', 'time of each cycle in which nobody moves; else from the changes')
    .option('--cycle <seconds>', 'the cycle to watch; else the common cycle or the optimum')
    .option('-o, --output <out>', 'layout file to write')
    .action((file, options) => done(split(file, options)));
  command('wave <file>', 'find offsets for a row of junctions, so that traffic meets green after green')
    .requiredOption('--sites <list>', 'junctions in their order along the street: a,b,c')
    .requiredOption('--speed <speed>', 'of the traffic: 30mph, 50km/h')
    .option('--distances <list>', 'mm on the layout from each junction to the next; else from their places')
    .option('--phases <list>', 'phase along the street, one a junction; else the first of the first stage')
    .option('--weights <list>', 'what the bands out and back are worth, 1,1 if not said')
    .option('--cycle <seconds>', 'common cycle; else that of their group or the longest of their own')
    .option('-o, --output <out>', 'layout file to write')
    .action((file, options) => done(wave(file, options)));
  command('log <file>', 'tell a session log as a story, or turn it into a table')
    .option('--format <format>', 'text, csv or jsonl', 'text')
    .option('--search <words>', 'only entries with all of these words')
    .option('--only <groups>', 'only these: times, keeps, notes, trouble, connection, checks, layout, sending, running')
    .option('-o, --output <out>', 'file to write instead of printing')
    .action((file, options) => done(storyOfLog(file, options)));
  command('ports', 'list serial ports').action(() => done(ports()));
  command('identify', 'ask who is at a port')
    .requiredOption(...PORT)
    .option(...DATA)
    .action((options) => done(identify(options)));
  command('firmware', 'put the firmware on a board, or the newest in the place of an older one')
    .requiredOption('--port <port>', 'serial port')
    .option('--chip <chip>', 'atmega328p or atmega2560; else whichever answers')
    .option('--check', 'only ask the boot loader who is there')
    .option('--data <folder>', 'where copies of what boards keep are put')
    .action((options) => done(firmware(options, io)));
  command('send <file>', 'send a layout to a board')
    .requiredOption(...PORT)
    .option(...DATA)
    .option('--keep', 'keep it, so that the board starts with it')
    .option(...BOARD)
    .action((file, options) => done(send(file, options, io)));
  command('nudge <site> <dial> <time>', 'change one time on the running board')
    .requiredOption(...PORT)
    .option(...DATA)
    .option('--layout <file>', 'layout that the names are from')
    .action((site, dial, time, options) => done(nudge(site, dial, time, options)));
  command('keep', 'make what runs now the start table')
    .requiredOption(...PORT)
    .option(...DATA)
    .action((options) => done(keep(options)));
  command('watch', 'show what a board tells')
    .requiredOption(...PORT)
    .option(...DATA)
    .option('--layout <file>', 'layout that the names are from')
    .option('--seconds <n>', 'stop after so many seconds')
    .action((options) => done(watch(options, io)));
  command('report', 'make a text for asking for help, with nothing private in it')
    .option(...PORT)
    .option(...DATA)
    .option('-o, --output <out>', 'file to write instead of printing')
    .action((options) => done(helpReport(options)));
  return program;
}

/** Asking for help is fine; anything else was not understood. */
function usage(io: Console, json: boolean, error: CommanderError): ExitCode {
  if (error.exitCode === 0) return 0;
  if (!json) return 2;
  const what = error.message.replace(/^error: /, '');
  const words = { what, why: 'The command could not be understood.', next: 'See amberwick --help.' };
  return report(io, json, { exit: 2, problem: { code: 'misread', ...words } });
}

function crash(error: unknown): NonNullable<Report['problem']> {
  return {
    code: 'hostFailed',
    what: 'Something went wrong inside Amberwick.',
    why: 'This is a mistake in the program, not in your layout.',
    next: 'Report it with the details.',
    detail: error instanceof Error ? (error.stack ?? error.message) : String(error),
  };
}
