import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { RequestedLaw } from './requested-law.ts';
import { WarmCourse } from './warm-course.ts';

/** What becomes of a floating rig whose knob is left alone from cold: its height after the on-time, and when it lands. */
export const LEFT_ALONE: RequestedLaw = {
  quantities: ['height_after_on_time', 'lands_after'],
  create() {
    const course = new WarmCourse();
    return (point) => {
      const { rig } = point;
      const { slots, results } = rig;
      if (rig.status !== STATUS.lifts) return;
      if (!point.voltageHeld) {
        results[Q.height_after_on_time] = results[Q.height]!;
        results[Q.lands_after] = Number.POSITIVE_INFINITY;
        return;
      }
      const duty = slots[SLOT.dutyOn]!;
      const permitted = results[Q.coil_on_time]!;
      const onTime = Number.isNaN(duty)
        ? Number.isNaN(permitted)
          ? Number.POSITIVE_INFINITY
          : permitted
        : duty;
      const stops = onTime < Number.POSITIVE_INFINITY ? [onTime] : [];
      let lands = Number.POSITIVE_INFINITY;
      let height = Number.NaN;
      let before = 0;
      let margin = 0;
      course.follow(point, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, stops, (moment) => {
        if (moment.down && lands === Number.POSITIVE_INFINITY) {
          const fraction = margin / (margin - moment.margin);
          lands = before + (moment.time - before) * (fraction >= 0 ? fraction : 1);
        }
        if (moment.time <= onTime) height = moment.height;
        before = moment.time;
        margin = moment.margin;
        return moment.down && moment.time >= onTime;
      });
      results[Q.height_after_on_time] = height;
      results[Q.lands_after] = lands;
    };
  },
};
