import { clockOf } from '../../core/press/index.ts';
import { pullsOf } from '../../core/runOf.ts';
import { runPlanInput } from '../../core/runPlanInput.ts';
import { Card, Measure } from '../bench/index.ts';
import { Worked } from '../screens/index.ts';
import { useStudio } from '../state/index.ts';
import { PlanChart } from './PlanChart.tsx';
import { PlanMeans } from './PlanMeans.tsx';
import { PlanTicks } from './PlanTicks.tsx';
import { usePlan } from './usePlan.ts';

/** The run over days: what with, how long, when, and what is done. */
export function PlanCard() {
  const job = useStudio((s) => s.job)!;
  const input = runPlanInput(job);
  const found = usePlan(input);
  const pulls = pullsOf(job);
  return (
    <Card title="The plan" wide>
      {found === null ? (
        <p className="hint">Working out the plan…</p>
      ) : (
        <Worked found={found}>
          {(plan) => (
            <>
              <div className="measures">
                <Measure
                  value={`day ${Math.ceil(plan.end / 1440)}`}
                  label={`done at ${clockOf(plan.end)}, drying included`}
                />
                <Measure
                  value={
                    plan.end - plan.atLeast < 1
                      ? 'shortest'
                      : `${((plan.end / plan.atLeast - 1) * 100).toFixed(0)} %`
                  }
                  label={
                    plan.end - plan.atLeast < 1
                      ? 'no plan can end sooner'
                      : 'over what no plan can beat, at most'
                  }
                />
              </div>
              <PlanChart plan={plan} input={input} hexOf={(pull) => pulls[pull]?.ink.hex} />
              <PlanTicks plan={plan} firstWeekday={input.firstWeekday} />
            </>
          )}
        </Worked>
      )}
      <PlanMeans input={input} />
    </Card>
  );
}
