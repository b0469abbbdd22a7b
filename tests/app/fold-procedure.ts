/** A procedure for experts and learners: a step that may be folded with a skill and without one, and one that must be read. */
export const foldProcedure = `---
procedure: T-1
title: Small lining
sets: 1
---

# Small lining

## Lay the pieces out

- For the whole bundle

Face down, marks toward you. *What lies crosswise is sewn crosswise.*

![The pieces](../media/lining.svg#A)

- [ ] A lies face down
- [ ] Sleeves lie beside it
- [ ] Roll of the tape ____
- [ ] Side the tape is on ____ (left / right)

## Fold the sleeves

- Needs skill: sleeve to line

Fold on the pencil line. Do not press the fold, vinyl keeps it.

- [ ] Every sleeve is folded
- [ ] None is pressed

## Measure the sleeves

Laid flat, without pulling.

- [ ] Bore ____ mm (27 +2/-0)
- [ ] None is twisted
`;
