/** Seconds as a clock on the wall would count them: `0:38`, `12:04`, `1:02:10`; empty for none. */
export function duration(seconds: number | null): string {
  if (seconds === null) return '';
  const whole = Math.floor(seconds);
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

const two = (n: number): string => String(n).padStart(2, '0');
