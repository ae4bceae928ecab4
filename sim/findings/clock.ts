/** Wall clock `HH:MM` of a time in s after midnight; past midnight the days are counted: `01:20 (+1 day)`. */
export function clockOf(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  const days = Math.floor(minutes / 1440);
  const two = (n: number) => String(n).padStart(2, "0");
  const clock = `${two(Math.floor((minutes % 1440) / 60))}:${two(minutes % 60)}`;
  return days === 0 ? clock : `${clock} (+${days} ${days === 1 ? "day" : "days"})`;
}
