import type { CallArgs, CallResult } from '../../electron/bridge/contract.ts';
import type { Stopping } from '../../reasoner/index.ts';
import { type Given, latest, useAsk } from '../bridge/useAsk.ts';

/** After the odds are here, ms: verdicts are asked for, which nothing waits for. */
const settle = 120;

/** Whether one may stop looking, asked for the sheet the odds are of; null while it is not known. */
export function useStopping(given: Given<CallResult<'odds.of'>, CallArgs<'odds.of'>> | null): Stopping | null {
  const found = given !== null && given.value.odds.kind === 'odds';
  return latest(useAsk('odds.stop', found ? given.args : null, settle));
}
