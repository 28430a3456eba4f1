import { allowed, reading, titled } from "@/app/_ui/reading";
import { rangeView } from "@/lib/contest";
import { KeptOrder } from "../range/kept-order";
import { PostDesk } from "./post-desk";

export const generateMetadata = titled("Post");

export default async function PostPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser", "safety-officer", "judge"]);
  const first = await reading((db) => rangeView(db, slug, {}));
  return (
    <>
      <h1>Post</h1>
      <PostDesk slug={slug} first={first} />
      <KeptOrder slug={slug} />
    </>
  );
}
