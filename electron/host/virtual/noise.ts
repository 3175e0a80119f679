/** Registers and RAM hold anything after power-on; here noise from a fixed generator (xorshift). */
export class Noise {
  private state = 0x2545f491;

  bytes(count: number): Uint8Array {
    const memory = new Uint8Array(count);
    for (let index = 0; index < count; index++) {
      this.state ^= this.state << 13;
      this.state ^= this.state >>> 17;
      this.state ^= this.state << 5;
      memory[index] = this.state & 0xff;
    }
    return memory;
  }
}
