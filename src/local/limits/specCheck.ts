import type { ZodMiniType } from 'zod/mini';
import { type FieldPath, FormErrors } from '../http/refusal.ts';

/** The parts of a schema problem that decide how the service names it. */
interface Problem {
  code?: string;
  path: PropertyKey[];
  input?: unknown;
  expected?: string;
  origin?: string;
  format?: string;
  minimum?: number | bigint;
  maximum?: number | bigint;
  values?: readonly unknown[];
  errors?: Problem[][];
}

/**
 * Holds a body against a published schema.
 * @returns the body with unknown fields left out
 * @throws ApiRefusal 50035 naming every field that does not fit
 */
export function checkAgainstSpec(schema: ZodMiniType, body: unknown, under: FieldPath = []): unknown {
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  const errors = new FormErrors();
  for (const issue of parsed.error.issues) addProblem(errors, under, issue as Problem, body);
  errors.refuseIfAny();
  throw new Error('a schema refused a body without saying why');
}

function addProblem(errors: FormErrors, under: FieldPath, problem: Problem, body: unknown): void {
  const own = problem.path.map((step) => (typeof step === 'number' ? step : String(step)));
  const path = [...under, ...own];
  if (problem.code === 'invalid_union' && problem.errors !== undefined) {
    const branch = closestBranch(problem.errors);
    const value = valueAt(body, own);
    if (value === undefined) errors.add(path, 'BASE_TYPE_REQUIRED', 'This field is required');
    else if (branch === undefined)
      errors.add([...path, 'type'], 'UNION_TYPE_CHOICES', 'Value of field "type" is not allowed');
    else for (const inner of branch) addProblem(errors, path, inner, value);
    return;
  }
  const { code, message } = nameOf(problem, valueAt(body, own));
  errors.add(path, code, message);
}

/**
 * A union of component or option kinds is told apart by `type`: the branch whose `type` fits is the one that was meant.
 * Of several, it is the one with the least to complain of; a branch for another kind of value altogether never is.
 */
function closestBranch(branches: Problem[][]): Problem[] | undefined {
  const fitting = branches.filter((branch) =>
    branch.every((problem) => problem.path.length > 0 && problem.path[0] !== 'type'),
  );
  return [...fitting].sort((a, b) => a.length - b.length)[0];
}

function nameOf(problem: Problem, value: unknown): { code: string; message: string } {
  switch (problem.code) {
    case 'too_big':
      return problem.origin === 'number' || problem.origin === 'int'
        ? { code: 'NUMBER_TYPE_MAX', message: `int value should be less than or equal to ${problem.maximum}.` }
        : { code: 'BASE_TYPE_MAX_LENGTH', message: `Must be ${problem.maximum} or fewer in length.` };
    case 'too_small':
      if (problem.origin === 'number' || problem.origin === 'int')
        return { code: 'NUMBER_TYPE_MIN', message: `int value should be greater than or equal to ${problem.minimum}.` };
      return value === ''
        ? { code: 'BASE_TYPE_REQUIRED', message: 'This field is required' }
        : { code: 'BASE_TYPE_MIN_LENGTH', message: `Must be ${problem.minimum} or more in length.` };
    case 'invalid_value':
      return { code: 'BASE_TYPE_CHOICES', message: `Value must be one of ${JSON.stringify(problem.values)}.` };
    case 'invalid_format':
      return problem.format === 'url'
        ? { code: 'URL_TYPE_INVALID_URL', message: 'Not a well formed URL.' }
        : { code: 'STRING_TYPE_REGEX', message: `Value is not a well formed ${problem.format}.` };
    default:
      return value === undefined
        ? { code: 'BASE_TYPE_REQUIRED', message: 'This field is required' }
        : { code: 'BASE_TYPE_BAD_TYPE', message: `Value is not of type ${problem.expected ?? 'allowed here'}.` };
  }
}

function valueAt(body: unknown, path: FieldPath): unknown {
  let value = body;
  for (const step of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = Reflect.get(value, step);
  }
  return value;
}
