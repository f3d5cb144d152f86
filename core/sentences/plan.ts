import { badInput, type Said } from './failure.ts';

export const planTrouble = {
  noHours: () => badInput('No day has working hours.', 'Give at least one weekday its hours.'),
  sameId: () => badInput('Two tasks have one id.', 'Give each task an id of its own.'),
  noLength: (task: Said) => badInput(`“${task}” takes no length of time.`, 'Give its minutes, 0 or more.'),
  waitsForMissing: (task: Said, id: Said) =>
    badInput(`“${task}” waits for “${id}”, which is not planned.`, 'Plan it as well, or do not wait for it.'),
  tooFew: (task: Said, need: Said, name: Said, have: Said) =>
    badInput(`“${task}” takes ${need} ${name}, but there are ${have}.`, `Add to ${name}, or split the task.`),
  longerThanDay: (task: Said, minutes: Said) =>
    badInput(
      `“${task}” takes ${minutes} minutes in one piece, longer than any working day.`,
      'Lengthen the working hours, or take fewer decks at a time.',
    ),
  circle: (task: Said) =>
    badInput(
      `“${task}” waits for itself in a circle.`,
      'Let one of these tasks wait no longer for the other.',
    ),
};
