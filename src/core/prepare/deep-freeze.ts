/** Freezes plain data all the way down, the contents of maps and sets included; what is frozen already is left. */
export const deepFreeze = <T>(value: T): T => {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  Object.freeze(value);
  if (value instanceof Map || value instanceof Set) for (const one of value.values()) deepFreeze(one);
  else for (const one of Object.values(value)) deepFreeze(one);
  return value;
};
