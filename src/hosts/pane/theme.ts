import { remember, remembered } from './choices';

const CHOICES = ['auto', 'light', 'dark'] as const;
type Choice = (typeof CHOICES)[number];

/** Light or dark, as the person chose or as the device is; kept for the next visit of any page. */
export class Theme {
  private readonly device = matchMedia('(prefers-color-scheme: dark)');
  private choice: Choice = CHOICES.find((one) => one === remembered('theme')) ?? 'auto';

  constructor(private readonly onChange: () => void = () => {}) {
    this.device.addEventListener('change', onChange);
    this.show();
  }

  /** Takes the choice from the page's own buttons, once they are there. */
  listen(): void {
    for (const radio of document.querySelectorAll<HTMLInputElement>('input[name="theme"]')) {
      radio.checked = radio.value === this.choice;
      radio.addEventListener('change', () => {
        this.choice = radio.value as Choice;
        remember('theme', this.choice);
        this.show();
        this.onChange();
      });
    }
  }

  get isDark(): boolean {
    return this.chosen ?? this.device.matches;
  }

  /** What the person chose; undefined where the device decides. */
  get chosen(): boolean | undefined {
    return this.choice === 'auto' ? undefined : this.choice === 'dark';
  }

  private show(): void {
    document.documentElement.dataset['theme'] = this.choice;
  }
}
