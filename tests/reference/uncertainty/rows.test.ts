import { testRows } from '../ledger.ts';
import { rows } from './rows.ts';

testRows(rows);
