export type TakeKeyboard = (focus: () => void) => void;

/**
 * Remembers where the keyboard is. What comes later may take it from there, and does not where the person took it
 * elsewhere meanwhile.
 */
export function keyboardFromHere(): TakeKeyboard {
  const from = document.activeElement;
  return (focus) => {
    const now = document.activeElement;
    if (now === null || now === document.body || now === from) focus();
  };
}
