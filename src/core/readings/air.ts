/** Standard pressure at sea level, kPa. */
export const seaLevel = 101.325;

/** Effective radius of the Earth of the standard atmosphere, m. */
const earthRadius = 6_356_766;

/**
 * Pressure of the standard atmosphere, kPa, at a geometric altitude in metres, up to 11 km (above, the last value
 * stays). Source: US Standard Atmosphere 1976, equations 18 and 33a: 288.15 K and 101.325 kPa at sea level, 6.5 K a
 * kilometre, exponent g₀M/(R·L).
 */
export const standardPressure = (metres: number): number => {
  const geopotential = Math.min((earthRadius * metres) / (earthRadius + metres), 11_000);
  return seaLevel * (1 - (0.0065 * geopotential) / 288.15) ** 5.255_88;
};

/** Kelvin of a temperature in °C. */
export const kelvin = (celsius: number): number => celsius + 273.15;

/**
 * What an absolute pressure becomes at another temperature where no air comes or goes and the volume stays:
 * p ∝ T (the ideal gas law; OpenStax, College Physics, 13.3).
 *
 * @param absolute absolute pressure, in any unit; the result is in the same
 * @param from temperature at which it was read, °C, above −273.15
 * @param to temperature to bring it to, °C
 */
export const atTemperature = (absolute: number, from: number, to: number): number =>
  (absolute * kelvin(to)) / kelvin(from);
