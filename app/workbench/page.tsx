import { MachineDesk } from "./machine-desk";

export default function WorkbenchPage() {
  return (
    <>
      <div className="no-print">
        <h1>The workbench</h1>
        <p>
          What will it do, what may break, what to change before the day. Everything is computed and kept in
          this browser, with or without a network; nobody else sees it. Nothing here is official: the sheet of
          your contest and its safety officer decide.
        </p>
      </div>
      <MachineDesk />
    </>
  );
}
