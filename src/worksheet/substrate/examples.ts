// Tables, cautions and sources that the words of several functions of the family share. The farm in them is invented.

export const exampleRecipe = [
  ['ingredient', 'share', 'moisture'],
  ['oak sawdust', 0.8, 0.2],
  ['wheat bran', 0.2, 0.1],
];

export const DUST =
  'Fine dust of bran and sawdust harms lungs and can burn: mix with dust extraction or a mask.';

export const NRAES = 'Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54: moisture of a mixture';
