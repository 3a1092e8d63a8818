/** Reynolds number at which a quiet stream along a smooth plate turns over. */
export const TRANSITION_RE = 5e5

/**
 * Mean Nusselt number of a plate along a quiet stream, on its length: 0.664 Re^(1/2) Pr^(1/3).
 * Valid: Re below 5e5, Pr 0.6 to 60. Source: `pohlhausen-1921`; `incropera-6`, ex. 7.1 and 7.2.
 */
export function nusseltPlateLaminar(Re: number, Pr: number): number {
  return 0.664 * Math.sqrt(Re) * Math.cbrt(Pr)
}

/**
 * Mean Nusselt number of a plate whose stream turns over on the way: (0.037 Re^0.8 − 871) Pr^(1/3).
 * Valid: Re 5e5 to 1e8, Pr 0.6 to 60. Source: `incropera-6`, ex. 7.2; `cengel-3`, ex. 7.2.
 */
export function nusseltPlateThroughTransition(Re: number, Pr: number): number {
  return (0.037 * Re ** 0.8 - 871) * Math.cbrt(Pr)
}

/**
 * Mean Nusselt number of a plate with a stream that is rough from the front edge on: 0.037 Re^0.8 Pr^(1/3).
 * Valid: Re up to 1e8, Pr 0.6 to 60. Source: `incropera-6`, ex. 7.3.
 */
export function nusseltPlateRough(Re: number, Pr: number): number {
  return 0.037 * Re ** 0.8 * Math.cbrt(Pr)
}

/** Mean Nusselt number of a smooth plate in a quiet stream of any speed: the law that holds at its Reynolds number. */
export function nusseltPlateQuiet(Re: number, Pr: number): number {
  return Re < TRANSITION_RE ? nusseltPlateLaminar(Re, Pr) : nusseltPlateThroughTransition(Re, Pr)
}

/**
 * Mean Nusselt number of a thick piece in the rough air of a fan: the larger of the laminar and the rough law. A blunt
 * edge and rough air leave the laminar law as a lower bound only.
 * Source: choice after `kondjoyan-daudin-1995` (from memory).
 */
export function nusseltPlateFanned(Re: number, Pr: number): number {
  return Math.max(nusseltPlateLaminar(Re, Pr), nusseltPlateRough(Re, Pr))
}
