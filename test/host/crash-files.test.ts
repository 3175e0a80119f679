/** Files of a program that is killed, and of a disk that is full. */
import { spawnSync } from 'node:child_process';
import { appendFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { LayoutCopy } from '../../electron/host/book/layout-copy.ts';
import { SessionLog } from '../../electron/host/log/session-log.ts';
import { sweepUnfinished, writeWhole } from '../../electron/host/whole-file.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-crash-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
});

const noon = (): Date => new Date('1965-06-01T12:00:00.250Z');

describe('a file that is written whole', () => {
  it('takes texts and bytes, and leaves nothing beside it', () => {
    const file = join(folder, 'page.json');
    writeWhole(file, 'old');
    writeWhole(file, Uint8Array.of(1, 2, 250));
    expect([...readFileSync(file)]).toEqual([1, 2, 250]);
    expect(readdirSync(folder)).toEqual(['page.json']);
  });

  it('is what it was when the new one cannot be put in its place', () => {
    const file = join(folder, 'taken');
    mkdirSync(join(file, 'by a folder'), { recursive: true });
    expect(() => writeWhole(file, 'new')).toThrow();
    expect(readdirSync(folder)).toEqual(['taken']);
  });

  it('unfinished ones go when nobody is at them any more', () => {
    const { pid } = spawnSync(process.execPath, ['-e', '']);
    for (const name of [`a.json.${pid}.part`, `b.json.${process.pid}.part`, 'c.json', 'd.part']) {
      writeFileSync(join(folder, name), 'x');
    }
    sweepUnfinished(folder);
    expect(readdirSync(folder).sort()).toEqual([`b.json.${process.pid}.part`, 'c.json', 'd.part']);
    expect(() => sweepUnfinished(join(folder, 'missing'))).not.toThrow();
  });
});

describe('the log of a host that was killed in the middle of a line', () => {
  it('loses the half line at the next start, and no whole one', () => {
    const log = new SessionLog(folder, noon);
    log.add('start', 'Amberwick started.');
    log.add('remark', 'Looks right from the door.');
    log.close();
    const whole = readFileSync(log.file, 'utf8');
    appendFileSync(log.file, '{"number":3,"at":"1965-06-0');
    const next = new SessionLog(folder, noon);
    next.close();
    expect(readFileSync(log.file, 'utf8')).toBe(whole);
    expect(readFileSync(next.file, 'utf8')).toBe('');
  });

  it('a first line that is half is no line', () => {
    writeFileSync(join(folder, '1965-05-31T12-00-00Z.jsonl'), '{"number":1,');
    new SessionLog(folder, noon).close();
    expect(readFileSync(join(folder, '1965-05-31T12-00-00Z.jsonl'), 'utf8')).toBe('');
  });
});

describe('the copy of the open layout', () => {
  it('is found again after a crash, and there is none on a first start', () => {
    const open = { name: 'penmarrow.json', text: '{"name":"Penmarrow"}' };
    const copy = new LayoutCopy(join(folder, 'layouts'));
    expect(copy.left()).toBeNull();
    copy.note(open);
    expect(new LayoutCopy(join(folder, 'layouts')).left()).toEqual(open);
  });

  it('that cannot be read is none, and a disk that takes none says why', () => {
    writeFileSync(join(folder, 'open.json'), '{"name":"penmarrow.json","te');
    expect(new LayoutCopy(folder).left()).toBeNull();
    writeFileSync(join(folder, 'file'), '');
    const copy = new LayoutCopy(join(folder, 'file'));
    copy.note({ name: 'penmarrow.json', text: '{}' });
    expect(copy.failure).toMatch(/EEXIST|ENOTDIR/);
  });
});
