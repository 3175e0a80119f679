#!/usr/bin/env node
// The `amberwick` command: loads the TypeScript sources and hands over the arguments.
import { register } from 'tsx/esm/api';

register();
const { main } = await import('./cli/main.ts');
process.exitCode = await main(process.argv);
