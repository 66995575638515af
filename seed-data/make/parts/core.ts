import type { FactDraft, PartDraft } from '../pack/draft.ts';
import { about, between, choice, coded, count, mark, present, yes } from '../pack/facts.ts';
import type { CorePattern } from './core-pattern.ts';
import { type PartHead, partOf } from './part.ts';
import { rimFacts } from './rim.ts';

export interface BearingHousingDrawing {
  readonly core: CorePattern;
  readonly oilFeed: string;
  readonly oilDrain: 'two-bolt' | 'four-bolt' | 'spigot';
  readonly ribPattern: 'straight' | 'fan' | 'ring' | 'smooth';
  readonly ribs: number;
  readonly castName: FactDraft;
  readonly castMark: FactDraft;
}

export const bearingHousing = (head: PartHead, { core, ...drawing }: BearingHousingDrawing): PartDraft =>
  partOf('bearing-housing', head, {
    'cast-name': drawing.castName,
    'cast-mark': drawing.castMark,
    'water-ports': present(core.water),
    'oil-feed': choice(drawing.oilFeed),
    'oil-drain': choice(drawing.oilDrain),
    'rib-pattern': choice(drawing.ribPattern),
    ribs: count(drawing.ribs),
    recess: coded(core.backplate.pilot, 'H7'),
    'screw-count': count(core.backplate.screws),
    'screw-circle': about(core.backplate.circle, 0.08),
    screw: choice(core.backplate.screw),
    'bored-for': choice(core.kind),
    'bearing-bore': between(core.bearing.bore, 0, 0.014),
    'seal-bore': between(core.sealBoss + 0.26, 0, 0.03),
    spigot: between(core.turbineFace.pilot, -0.13, -0.08),
    ...rimFacts(core.turbineFace.rim),
    'shield-seat': about(core.shield.seat, 0.02),
    'plate-holes': count(core.plate.holes),
    'plate-spacing': about(core.plate.spacing, 0.15),
    'plate-rivet': choice(core.plate.rivet),
  });

export interface BearingSetDrawing {
  readonly core: CorePattern;
  readonly bushes: number;
  readonly balls: number;
  readonly thrust: 'split-ring' | 'full-ring' | 'in-cartridge';
  readonly needsWater: boolean;
  readonly mark: FactDraft;
}

/** A journal set floats on 0.075 to 0.104 mm of oil outside and 0.035 to 0.058 mm inside; a cartridge sits closer and runs closer. */
export const bearingSet = (head: PartHead, { core, ...drawing }: BearingSetDrawing): PartDraft =>
  partOf('bearing-set', head, {
    kind: choice(core.kind),
    'seat-kind': choice(core.kind),
    'needs-water': present(drawing.needsWater),
    outside: core.kind === 'journal' ? between(core.bearing.bore, -0.09, -0.075) : between(core.bearing.bore, -0.045, -0.031),
    'running-bore': core.kind === 'journal' ? between(core.bearing.running, 0.035, 0.05) : between(core.bearing.running, 0.012, 0.02),
    length: about(core.bearing.length - 0.12, 0.03),
    bushes: count(drawing.bushes),
    balls: count(drawing.balls),
    thrust: choice(drawing.thrust),
    repeats: yes,
    mark: drawing.mark,
  });

export interface ShaftDrawing {
  readonly core: CorePattern;
  readonly steps: number;
  readonly mark: FactDraft;
}

/** A cartridge shaft carries two pressed inner races and runs on their raceway; a journal shaft runs on its own journals. */
export const shaft = (head: PartHead, { core, ...drawing }: ShaftDrawing): PartDraft =>
  partOf('shaft', head, {
    steps: count(drawing.steps),
    'inner-races': present(core.kind === 'cartridge'),
    'made-for': choice(core.kind),
    running: core.kind === 'journal' ? between(core.bearing.running, -0.008, 0) : between(core.bearing.running, -0.004, 0),
    'bearing-length': about(core.bearing.length, 0.02),
    'seal-boss': about(core.sealBoss, 0.02),
    flinger: about(core.flinger, 0.02),
    stub: between(core.stub.diameter, -0.006, -0.001),
    'stub-length': about(core.stub.length, 0.05),
    thread: choice(core.stub.thread),
    'thread-hand': choice(core.stub.hand),
    'weld-pattern': choice(core.weld.pattern),
    'weld-spigot': between(core.weld.spigot, -0.02, -0.008),
    mark: drawing.mark,
  });

export interface HeatShieldDrawing {
  readonly core: CorePattern;
  readonly outside: number;
  readonly dish: number;
  readonly form: 'pressed' | 'turned';
  readonly slots: number;
  readonly mark: FactDraft;
}

export const heatShield = (head: PartHead, { core, ...drawing }: HeatShieldDrawing): PartDraft =>
  partOf('heat-shield', head, {
    rim: between(core.shield.seat, -0.14, -0.06),
    hole: about(core.shield.hub + 1.1, 0.15),
    outside: about(drawing.outside, 0.4),
    dish: about(drawing.dish, 0.3),
    form: choice(drawing.form),
    slots: count(drawing.slots),
    mark: drawing.mark,
  });

export interface NameplateDrawing {
  readonly plate: CorePattern['plate'];
  readonly number: string;
  readonly tradeName: string;
  readonly from: number;
  readonly to: number;
}

/** One plate for each model and each name it was sold under; all leave the works on factory rivets and with a serial number. */
export const nameplate = (head: PartHead, drawing: NameplateDrawing): PartDraft =>
  partOf('nameplate', head, {
    number: mark(drawing.number),
    'trade-name': mark(drawing.tradeName),
    serial: yes,
    year: count(drawing.from, drawing.to),
    fixing: choice('factory-rivets'),
    holes: count(drawing.plate.holes),
    spacing: about(drawing.plate.spacing, 0.1),
    rivet: choice(drawing.plate.rivet),
  });
