import { InTurn } from '../bench/index.ts';
import { EmulsionCard } from './EmulsionCard.tsx';
import { ExposureCard } from './ExposureCard.tsx';
import { FrameCard } from './FrameCard.tsx';
import { GrowthCard } from './GrowthCard.tsx';
import { InkAmounts } from './InkAmounts.tsx';
import { MeasureCard } from './MeasureCard.tsx';
import { MeshCard } from './MeshCard.tsx';
import { MoireCard } from './MoireCard.tsx';
import { OwnMeshesCard } from './OwnMeshesCard.tsx';
import { SqueegeeCard } from './SqueegeeCard.tsx';
import { StepTestCard } from './StepTestCard.tsx';

/** From films to screens that hold them: mesh, frame, growth, ink, emulsion, exposure, squeegee, moiré. */
export function ScreensStation() {
  return (
    <InTurn>
      <MeshCard />
      <MeasureCard />
      <FrameCard />
      <GrowthCard />
      <ExposureCard />
      <StepTestCard />
      <InkAmounts />
      <EmulsionCard />
      <SqueegeeCard />
      <MoireCard />
      <OwnMeshesCard />
    </InTurn>
  );
}
