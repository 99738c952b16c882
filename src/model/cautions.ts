import type { CautionName } from './piece.ts';

/** A caution as it is printed: what it is about, and the usual words, which never take the place of a maker's own. */
export interface Caution {
  readonly title: string;
  readonly text: string;
}

/**
 * The usual cautions. They defer to the makers of tools and goods, to local rules, and to people who are licensed or trained;
 * none of them states what a law asks.
 */
export const CAUTIONS: Readonly<Record<CautionName, Caution>> = {
  'rotary-cutter': {
    title: 'Rotary cutter',
    text: "The blade is bare and very sharp. Close its guard whenever you put it down, cut away from yourself on a mat, keep your fingers off the ruler's edge, and keep it from children. Change and discard blades as their maker says.",
  },
  'iron-and-fusing': {
    title: 'Iron and fusing',
    text: 'Hot iron and steam burn. Try the heat on a scrap of the same cloth, follow the times and heats that the makers of iron, interfacing and cloth give, air the room, and let fused pieces cool before you handle them.',
  },
  'infant-sleep': {
    title: 'Infants',
    text: 'Keep cushions, pillows and loose covers out of any place where an infant sleeps or is left alone. Follow the safe-sleep advice of your health service.',
  },
  'curtain-cords': {
    title: 'Curtain cords',
    text: 'Cords, ties and loops can strangle a child. Keep them out of reach, or choose fittings without any, and follow the instructions of their maker and the rules where you live.',
  },
  flammability: {
    title: 'Flammability',
    text: 'Where goods are sold, let with a room, or used by guests, rules on how cloth, fillings and curtains burn may apply. Ask the authority where you are, the suppliers for their test papers, and a qualified tester where one is called for.',
  },
  'wash-and-care': {
    title: 'Washing and care',
    text: "Wash, dry and press as the cloth's maker says. Cloth that was not washed before it was cut may shrink or bleed in its first wash: try a measured scrap.",
  },
};
