/**
 * How far two colors stand apart, from 1 to 21, as the Web Content Accessibility Guidelines 2.2
 * reckon it ("relative luminance" and "contrast ratio").
 */
export function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [
    number,
    number,
  ];
  return (light + 0.05) / (dark + 0.05);
}

/** Reads `rgb(1, 2, 3)` and `color(srgb .1 .2 .3)`. */
function luminance(color: string): number {
  const numbers = [...color.replace('srgb', '').matchAll(/[\d.]+(?:e-?\d+)?/g)].map(Number);
  const share = color.startsWith('color') ? 1 : 255;
  const [red, green, blue] = numbers.slice(0, 3).map((each) => {
    const value = each / share;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
