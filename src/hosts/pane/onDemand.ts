import { NotLoaded } from '../../worksheet/tools';

/** A part of the pane that is loaded and made once somebody asks for it. A download that failed is asked for again. */
export function onDemand<M, T>(load: () => Promise<M>, make: (loaded: M) => T): () => Promise<T> {
  let made: Promise<T> | undefined;
  return () => {
    made ??= load().then(make, (fault: unknown) => {
      made = undefined;
      throw new NotLoaded(fault);
    });
    return made;
  };
}
