import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { layoutAmong, OpenedFiles } from '../../electron/shell/opened-files.ts';
import { app } from './stand-in.ts';

const HOME = join('/', 'home', 'ann');

describe('the layout among the arguments of a start', () => {
  it.each([
    ['nothing', [], null],
    ['a path', ['/trains/Quay Hill.amberwick'], '/trains/Quay Hill.amberwick'],
    ['a path from where the app was started', ['trains/quay.json'], join(HOME, 'trains', 'quay.json')],
    ['what file managers give', [pathToFileURL('/trains/Quay Hill.amberwick').href], '/trains/Quay Hill.amberwick'],
    [
      'switches of Chromium',
      ['--no-first-run', '--lang=en', '/trains/quay.AMBERWICK', '--flag'],
      '/trains/quay.AMBERWICK',
    ],
    ['switches that look like files', ['--x=/trains/quay.json'], null],
    ['other files', ['/trains/photo.jpg', '/trains/notes.txt'], null],
    ['several', ['/a.json', '/photo.jpg', '/b.amberwick'], '/b.amberwick'],
    ['a file on another computer', ['file://server/share/quay.json'], null],
    ['an address', ['https://penmarrow.example/quay.json'], join(HOME, 'https:', 'penmarrow.example', 'quay.json')],
  ])('%s', (_, args, path) => {
    expect(layoutAmong(args, HOME)).toBe(path);
  });
});

describe('files that the system hands over', () => {
  it('wait until they can be opened, the newest only; then each is opened at once', () => {
    const files = new OpenedFiles();
    files.listen(app as never);
    const opened: string[] = [];
    let prevented = 0;
    const hand = (path: string): void => {
      app.emit('open-file', { preventDefault: () => (prevented += 1) }, path);
    };
    files.add('/first.json');
    files.add(null);
    hand('/second.amberwick');
    files.begin((path) => opened.push(path));
    expect(opened).toEqual(['/second.amberwick']);
    hand('/third.json');
    files.add('/fourth.json');
    expect([opened, prevented]).toEqual([['/second.amberwick', '/third.json', '/fourth.json'], 2]);
  });

  it('none, when nothing was handed over', () => {
    const opened: string[] = [];
    new OpenedFiles().begin((path) => opened.push(path));
    expect(opened).toEqual([]);
  });
});
