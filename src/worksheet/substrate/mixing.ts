// What CHEAPESTMIX calculates with, loaded once a sheet asks for a mix.

export { cheapestMix } from '../../maths/substrate/cheapestMix';
export { contentOf, isShare } from './contents';
