import type { Plan } from '../../reasoner/index.ts';
import { PartNames } from '../bridge/PartNames.tsx';
import { useShop } from '../bridge/ShopContext.ts';
import { sayMany } from '../values/sayMany.ts';
import { sayCost, sayHours, sayMoney } from './sayBuild.ts';

/** Hours and money by the shop's rates. What has no price is named, and comes on top. */
export function CostBlock({ plan: { cost } }: { readonly plan: Plan }) {
  const how = useShop().settings.money;
  const priced = cost.parts.reduce((sum, { price }) => sum + (price ?? 0), 0);
  return (
    <section className="block" id="plan-cost" tabIndex={-1} aria-labelledby="plan-cost-title">
      <h2 id="plan-cost-title" className="head">
        Hours and cost
      </h2>
      <dl className="cost">
        <dt>Work</dt>
        <dd>
          {sayHours(cost.hours)}
          {cost.labour !== null && `, ${sayMoney(cost.labour, cost.money, how)}`}
        </dd>
        {cost.atLeast !== null && (
          <>
            <dt>Parts to buy</dt>
            <dd>
              {sayMany(cost.parts.length, 'part')}, {sayMoney(priced, cost.money, how)}
            </dd>
            <dt>In all</dt>
            <dd>
              <b>{sayCost(cost, how)}</b>
            </dd>
          </>
        )}
        {cost.unpriced.length > 0 && cost.rates !== null && (
          <>
            <dt>Price not known</dt>
            <dd>
              <PartNames parts={cost.unpriced} />
            </dd>
          </>
        )}
      </dl>
      {cost.rates === 'the shop’s own' && <p className="small soft">By the shop’s own hour and price list.</p>}
      {cost.rates === null && <p className="small soft">The atlas holds no rates, so no money is named.</p>}
    </section>
  );
}
