/** Writing firmware for the panel's tests: it stands still until the test says how it goes on. */
import type { TaskStage } from '../../shared/workbench/contract.ts';
import type { ProblemCode } from '../../shared/workbench/problems.ts';
import type { FakeBoard } from './fake-board.ts';

export class FakeWriting {
  #board: FakeBoard | null = null;
  #name: 'firmware' | 'replace' = 'firmware';
  #stage: TaskStage = 'reset';
  #end: ((code: ProblemCode | null) => void) | null = null;

  /** Null when it was written, else why not. */
  run(board: FakeBoard, name: 'firmware' | 'replace'): Promise<ProblemCode | null> {
    this.#board = board;
    this.#name = name;
    const ended = new Promise<ProblemCode | null>((resolve) => {
      this.#end = resolve;
    });
    this.stage('reset');
    return ended;
  }

  get isUnderWay(): boolean {
    return this.#end !== null;
  }

  stage(stage: TaskStage, done = 0, total = 0, cancellable = stage !== 'greet' && stage !== 'restore'): void {
    this.#stage = stage;
    this.#board?.become({ task: { name: this.#name, done, total, stage, cancellable } });
  }

  finish(): void {
    this.#stop(null);
  }

  fail(code: ProblemCode): void {
    this.#stop(code);
  }

  cancel(): void {
    this.#stop(this.#stage === 'write' || this.#stage === 'verify' ? 'firmwareEmptied' : 'firmwareCancelled');
  }

  #stop(code: ProblemCode | null): void {
    const end = this.#end;
    this.#end = null;
    this.#board = null;
    end?.(code);
  }
}
