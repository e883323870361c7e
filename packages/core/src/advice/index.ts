export { withEarlierLook } from './firstLook.js';
export { type Narrowing, whatNarrows } from './narrowing.js';
export {
  adviseOnCourse,
  type CourseAdvice,
  type CourseGround,
  type CourseState,
  courseGround,
  type OvenChange,
} from './onCourse.js';
