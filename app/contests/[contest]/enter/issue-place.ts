/** Where on the form a field of the request is. */
const PLACES: Record<string, string> = {
  team: "Team name: ",
  divisionId: "Division: ",
  machineName: "Machine’s name: ",
  insurance: "Insurance: ",
  declaration: "Machine: ",
};

export function issuePlace(field: string): string {
  const [part = "", index] = field.split(".");
  if (part === "people" && index !== undefined) return `Person ${Number(index) + 1}: `;
  return PLACES[part] ?? "";
}
