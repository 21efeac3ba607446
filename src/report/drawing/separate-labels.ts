/**
 * Where to set labels that belong to `wanted` places along a line so that no two come nearer than `least`: as close to
 * the wanted places as that allows, in the same order.
 */
export function separateLabels(wanted: readonly number[], least: number): number[] {
  const order = [...wanted.keys()].sort((a, b) => wanted[a]! - wanted[b]!);
  // groups of labels that touch: each is set around the mean of what its members want
  const groups: { members: number[]; centre: number }[] = [];
  for (const index of order) {
    groups.push({ members: [index], centre: wanted[index]! });
    for (;;) {
      const last = groups.at(-1)!;
      const before = groups.at(-2);
      const room = ((last.members.length + (before?.members.length ?? 0)) / 2) * least;
      if (!before || last.centre - before.centre >= room) break;
      groups.pop();
      before.members.push(...last.members);
      before.centre =
        before.members.reduce((sum, member) => sum + wanted[member]!, 0) / before.members.length;
    }
  }
  const places = new Array<number>(wanted.length);
  for (const { members, centre } of groups) {
    members.forEach((member, i) => {
      places[member] = centre + (i - (members.length - 1) / 2) * least;
    });
  }
  return places;
}
