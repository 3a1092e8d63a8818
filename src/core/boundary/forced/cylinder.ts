/**
 * Mean Nusselt number of a cylinder across a stream, on its diameter.
 * Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3) / (1 + (0.4/Pr)^(2/3))^(1/4) · (1 + (Re/282000)^(5/8))^(4/5).
 * Valid: Re Pr above 0.2; a lower bound of the data. Source: `churchill-bernstein-1977`; `cengel-3`, ex. 7.5.
 */
export function nusseltCylinder(Re: number, Pr: number): number {
  const laminar = (0.62 * Math.sqrt(Re) * Math.cbrt(Pr)) / (1 + (0.4 / Pr) ** (2 / 3)) ** 0.25
  return 0.3 + laminar * (1 + (Re / 282000) ** 0.625) ** 0.8
}

/**
 * Mean Nusselt number of a square bar with a side across the stream, on that side: 0.102 Re^0.675 Pr^(1/3).
 * Valid: Re 5e3 to 1e5. Source: `jakob-1949` (from memory, `incropera-6`, table 7.3).
 */
export function nusseltSquareBar(Re: number, Pr: number): number {
  return 0.102 * Re ** 0.675 * Math.cbrt(Pr)
}
