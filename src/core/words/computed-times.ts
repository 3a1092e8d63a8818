import type { SentenceCode } from './sentences.ts'

/**
 * Which times of a sentence are computed, by the key of their value: each is told with its band. All other times in
 * sentences are given by the plan, by a rule or by a reading.
 */
export const computedTimes: Partial<Record<SentenceCode, readonly string[]>> = {
  fallen: ['at_h'],
  'fallen-then-warmer': ['at_h', 'again_h'],
  'baked-through': ['at_h'],
  'baked-beyond': ['at_h'],
  'baked-carried-over': ['at_h'],
  'edge-burnt': ['at_h'],
  'setting-done': ['at_h', 'first_h'],
  'setting-done-then-lost': ['at_h', 'first_h', 'again_h'],
  'setting-not-yet': ['more_h'],
  'stay-kept': ['since_h'],
  'stay-lost': ['since_h', 'at_h'],
  'rule-kept': ['taken_h'],
  'rule-step-late': ['taken_h'],
  'rule-step-unfinished': ['taken_h'],
  'rule-running': ['taken_h'],
  'rule-inside-kept': ['taken_h'],
  'rule-inside-over': ['taken_h'],
  'rule-inside-running': ['taken_h'],
  'rule-spells': ['taken_h'],
  'rule-coat-down': ['at_h'],
  'rule-slowest-down': ['at_h'],
  'appliance-warms': ['after_h', 'beyond_h', 'back_h'],
  'appliance-warms-to-the-end': ['after_h', 'beyond_h'],
  'appliance-sags': ['after_h', 'beyond_h'],
  'appliance-warms-briefly': ['after_h', 'beyond_h'],
  'appliance-sags-briefly': ['after_h', 'beyond_h'],
  'bath-warms': ['after_h', 'beyond_h'],
  'ice-gone': ['after_h'],
  'mass-pours': ['until_h'],
  'dew-on-chocolate': ['within_h'],
  'caution-spores': ['longest_h'],
  'day-ahead': ['by_h', 'at_h', 'promised_h'],
  'day-on-course': ['at_h', 'promised_h'],
  'day-behind': ['by_h', 'at_h', 'promised_h'],
  'day-gained': ['at_h'],
}
