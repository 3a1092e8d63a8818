/**
 * Mean Nusselt number of a ball in a stream, on its diameter, properties at the temperature of the stream.
 * Nu = 2 + (0.4 Re^(1/2) + 0.06 Re^(2/3)) Pr^0.4 (mu/mu_s)^(1/4).
 * @param thinning  viscosity of the stream over that at the surface
 * Valid: Re 3.5 to 7.6e4. Source: `whitaker-1972`; `incropera-6`, ex. 7.6.
 */
export function nusseltSphereInStream(Re: number, Pr: number, thinning: number): number {
  return 2 + (0.4 * Math.sqrt(Re) + 0.06 * Re ** (2 / 3)) * Pr ** 0.4 * thinning ** 0.25
}
