/** What a spotter's phone remembers of a contest: the post where it stands, and how it takes bearings. */
const name = (slug: string, what: "post" | "way") => `fairthrow:spot-${what}:${slug}`;

export function remembered(slug: string, what: "post" | "way"): string | null {
  try {
    return localStorage.getItem(name(slug, what));
  } catch {
    return null;
  }
}

export function remember(slug: string, what: "post" | "way", value: string): void {
  try {
    localStorage.setItem(name(slug, what), value);
  } catch {
    // It is asked for again when the page is opened anew.
  }
}
