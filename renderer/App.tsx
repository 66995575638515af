import { useEffect, useState } from 'react';
import { ApartScreen } from './apart/ApartScreen.tsx';
import { AtlasScreen } from './atlas/AtlasScreen.tsx';
import { BackupsScreen } from './backups/BackupsScreen.tsx';
import { useOpenUnits } from './bench/BenchContext.ts';
import { HeldBench } from './bench/HeldBench.tsx';
import { useAsk } from './bridge/useAsk.ts';
import { WordsContext } from './bridge/WordsContext.ts';
import { type Words, wordsOf } from './bridge/words.ts';
import { BuildScreen } from './build/BuildScreen.tsx';
import { CaseLink } from './cases/CaseLink.tsx';
import { CaseScreen } from './cases/CaseScreen.tsx';
import { DrillsScreen } from './drills/DrillsScreen.tsx';
import { EditScreen } from './edit/EditScreen.tsx';
import { GlossaryScreen } from './glossary/GlossaryScreen.tsx';
import { WordsHere } from './glossary/WordsHere.tsx';
import { GuidedCase } from './guided/GuidedCase.tsx';
import { HelpLink } from './help/HelpLink.tsx';
import { HelpOver } from './help/HelpOver.tsx';
import { HistoryScreen } from './history/HistoryScreen.tsx';
import { KeyScreen } from './key/KeyScreen.tsx';
import { ListingsScreen } from './listings/ListingsScreen.tsx';
import { HeldShop } from './look/HeldShop.tsx';
import { ThemeSwitch } from './look/ThemeSwitch.tsx';
import { TroubleNote } from './look/TroubleNote.tsx';
import { NumberAsk } from './number/NumberAsk.tsx';
import { BeginScreen } from './packs/BeginScreen.tsx';
import { InventedMark } from './packs/InventedMark.tsx';
import { MissingScreen } from './packs/MissingScreen.tsx';
import { PacksScreen } from './packs/PacksScreen.tsx';
import { PricesScreen } from './prices/PricesScreen.tsx';
import { ReportScreen } from './report/ReportScreen.tsx';
import { RetoldScreen } from './retold/RetoldScreen.tsx';
import { hrefOf, type Route, type Screen as Shown, useScreen } from './route/route.ts';
import { SettingsScreen } from './settings/SettingsScreen.tsx';
import { UnitBar } from './sheet/UnitBar.tsx';
import { UnitScreen } from './sheet/UnitScreen.tsx';
import { ShelfScreen } from './shelf/ShelfScreen.tsx';
import { StockScreen } from './stock/StockScreen.tsx';
import { TableScreen } from './table/TableScreen.tsx';
import { TreeScreen } from './tree/TreeScreen.tsx';
import { UnknownScreen } from './unknown/UnknownScreen.tsx';

/** Nothing can be entered before the atlas's vocabulary is here; until then, and if it cannot come, that is said. */
export function App() {
  const [begun, setBegun] = useState(0);
  const asked = useAsk('atlas.vocabulary', {}, 0, begun);
  const [words, setWords] = useState<Words | null>(null);
  useEffect(() => {
    if (asked.state === 'answered') setWords(wordsOf(asked.value));
  }, [asked]);
  if (words !== null) {
    if (words.vocabulary.packs.length === 0)
      return (
        <>
          <BeginScreen help={<HelpLink at="beginning" />} onBegun={() => setBegun((count) => count + 1)} />
          <HelpOver opensAt="beginning" here={null} />
        </>
      );
    return (
      <WordsContext value={words}>
        <HeldShop words={words}>
          <HeldBench>
            <Window words={words} />
          </HeldBench>
        </HeldShop>
      </WordsContext>
    );
  }
  if (asked.state === 'trouble' && asked.trouble.code === 'atlas-missing')
    return (
      <>
        <MissingScreen missing={asked.trouble} help={<HelpLink at="backups" />} onThere={() => setBegun((count) => count + 1)} />
        <HelpOver opensAt="backups" here={null} />
      </>
    );
  return (
    <main className="quiet-page">
      <HelpOver opensAt={null} here={null} />
      <h1>Kinplate</h1>
      {asked.state === 'trouble' ? (
        <TroubleNote lead="The atlas could not be opened." trouble={asked.trouble}>
          <p>
            <button type="button" className="button" onClick={() => window.location.reload()}>
              Try again
            </button>
          </p>
        </TroubleNote>
      ) : (
        <p className="soft" role="status">
          Opening the atlas…
        </p>
      )}
    </main>
  );
}

function Window({ words }: { readonly words: Words }) {
  const route = useScreen();
  const { counts, packs } = words.vocabulary;
  return (
    <>
      <header className="bar">
        <span className="word">Kinplate</span>
        <nav aria-label="Screens">
          <ul>
            <UnitTab now={route} />
            <Tab to={{ screen: 'build', place: 'bench' }} now={route} name="Build" />
            <Tab to={{ screen: 'sheets' }} now={route} name="Sheets" />
            <Tab to={{ screen: 'stock' }} now={route} name="Stock" />
            <Tab to={{ screen: 'atlas', page: null }} now={route} name="Atlas" />
            <Tab to={{ screen: 'tree', picks: [] }} now={route} name="Tree" />
            <Tab to={{ screen: 'apart', subjects: [] }} now={route} name="Tell apart" />
            <Tab to={{ screen: 'key', families: [] }} now={route} name="Key" />
            <Tab to={{ screen: 'drills', place: 'drill', learner: null }} now={route} name="Drills" />
          </ul>
        </nav>
        <span className="edition" title={packs.map((pack) => `${pack.title}, ${pack.edition}`).join('\n')}>
          <span className="counts">
            {counts.parts} parts, {counts.models} models
          </span>
        </span>
        <InventedMark packs={packs} />
        <NumberAsk />
        <WordsHere route={route} />
        <HelpLink at="here" />
        {/* On the unit's own screen it stands at the head of the sheet. */}
        {route.screen !== 'unit' && (
          <>
            {ofTheSheet(route) && <CaseLink />}
            <UnitBar whole={ofTheSheet(route)} />
          </>
        )}
        <ThemeSwitch />
      </header>
      <GuidedCase screen={route} />
      <Screen route={route} />
      <HelpOver opensAt="here" here={route} />
    </>
  );
}

/** Marked while entries are not saved. */
function UnitTab({ now }: { readonly now: Route }) {
  const { units } = useOpenUnits();
  return <Tab to={{ screen: 'unit' }} now={now} name={units.some((one) => one.unsaved) ? 'Unit •' : 'Unit'} />;
}

/** Whether a screen other than the unit’s own shows the sheet on the bench, and so has use for what is done with a sheet. */
const ofTheSheet = ({ screen }: Route): boolean => screen === 'build' || screen === 'report' || screen === 'case';

/** What is half done on a screen belongs to the unit that is shown there, and goes with it. */
function Screen({ route }: { readonly route: Shown }) {
  const { shown } = useOpenUnits();
  switch (route.screen) {
    case 'unit':
      return <UnitScreen key={shown} />;
    case 'build':
      return <BuildScreen place={route.place} />;
    case 'report':
      return <ReportScreen key={shown} />;
    case 'sheets':
      return <ShelfScreen />;
    case 'retold':
      return <RetoldScreen />;
    case 'listings':
      return <ListingsScreen />;
    case 'backups':
      return <BackupsScreen />;
    case 'settings':
      return <SettingsScreen />;
    case 'stock':
      return <StockScreen />;
    case 'prices':
      return <PricesScreen />;
    case 'history':
      return <HistoryScreen of={route.of} />;
    case 'packs':
      return <PacksScreen />;
    case 'table':
      return <TableScreen />;
    case 'apart':
      return <ApartScreen subjects={route.subjects} />;
    case 'case':
      return <CaseScreen key={route.sheet} sheet={route.sheet} />;
    case 'key':
      return <KeyScreen families={route.families} />;
    case 'drills':
      return <DrillsScreen place={route.place} learner={route.learner} />;
    case 'atlas':
      return <AtlasScreen place={route.page} />;
    case 'edit':
      return <EditScreen place={route.place} />;
    case 'glossary':
      return <GlossaryScreen term={route.term} />;
    case 'tree':
      return <TreeScreen picks={route.picks} />;
    case 'unknown':
      return <UnknownScreen address={route.address} />;
  }
}

function Tab({ to, now, name }: { readonly to: Route; readonly now: Route; readonly name: string }) {
  return (
    <li>
      <a
        href={hrefOf(to)}
        aria-current={
          to.screen === now.screen ||
          (to.screen === 'atlas' && now.screen === 'edit') ||
          (to.screen === 'stock' && now.screen === 'prices') ||
          (to.screen === 'sheets' &&
            (now.screen === 'case' ||
              now.screen === 'listings' ||
              now.screen === 'retold' ||
              now.screen === 'backups' ||
              now.screen === 'settings')) ||
          (to.screen === 'atlas' && (now.screen === 'packs' || now.screen === 'history' || now.screen === 'table'))
            ? 'page'
            : undefined
        }
      >
        {name}
      </a>
    </li>
  );
}
