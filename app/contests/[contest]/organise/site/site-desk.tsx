"use client";
/** Laying out the site of a contest. */
import { useRouter } from "next/navigation";
import { useMemo } from "react";
import { picturesOf } from "@/app/_ui/map/laid-out";
import { DraftPanel, type DraftPanelProps } from "@/app/_ui/site-editor/draft-panel";
import { SiteEditor } from "@/app/_ui/site-editor/site-editor";
import { useWrite } from "@/app/_ui/write/use-write";
import type { Site } from "@/app/_ui/zones/scene-of";
import type { ContestOverview } from "@/lib/api/contracts";
import { Retire } from "../retire";

type Contest = Site & Pick<ContestOverview, "latitude" | "longitude" | "height" | "declination">;

/** Where the API has what is laid out. */
const LISTS: Partial<Record<string, string>> = {
  "firing-point": "firing-points",
  "control-point": "control-points",
  "spot-height": "spot-heights",
};
const pathOf = (slug: string, item: string) => `/api/v1/contests/${slug}/${LISTS[item] ?? "features"}`;

export function SiteDesk({ slug, site, mayChange }: { slug: string; site: Contest; mayChange: boolean }) {
  const router = useRouter();
  const pictures = useMemo(() => picturesOf(slug, site.aerialPictures), [slug, site.aerialPictures]);
  return (
    <SiteEditor
      name={slug}
      of="contest"
      site={site}
      pictures={pictures}
      mayChange={mayChange}
      panel={(props) => <SavedPanel slug={slug} {...props} />}
      away={({ item, id, ...thing }) => <Retire url={`${pathOf(slug, item)}/${id}`} {...thing} />}
      onChanged={() => router.refresh()}
    />
  );
}

const NO_ERRORS: [] = [];

function SavedPanel({ slug, ...props }: DraftPanelProps & { slug: string }) {
  const { write, sending, trouble, problem } = useWrite<{ name?: string; number?: number }>();
  return (
    <DraftPanel
      {...props}
      saving={{
        sending,
        trouble,
        errors: problem?.errors ?? NO_ERRORS,
        save: async ({ item, id, body }) => {
          const path = pathOf(slug, item);
          const sent = await write(id ? "PATCH" : "POST", id ? `${path}/${id}` : path, body);
          return sent.ok ? sent.data : null;
        },
      }}
    />
  );
}
