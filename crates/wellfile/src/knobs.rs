//! The knobs themselves. Each is tied to its row of the entry table.

use crate::knob::{Ease, Knob, Step};
use rigwright_physics::tubular::{CasingDrift, casing_weights, yield_strength};
use rigwright_physics::{Formula, Range};
use rigwright_units::Kind;
use rigwright_well::{Casing, Fit, Part, PartKind, Section};
use std::f64::consts::PI;

const PPG: f64 = 0.453_592_37 / (231.0 * INCH * INCH * INCH);
const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const GPM: f64 = 231.0 * INCH * INCH * INCH / 60.0;
const PSI: f64 = 0.453_592_37 * 9.806_65 / (INCH * INCH);
const KLBF: f64 = 453.592_37 * 9.806_65;
const HOUR: f64 = 3_600.0;
const RPM: f64 = 2.0 * PI / 60.0;
/// Smallest and largest nozzle that are sold, in 32nds of an inch (common practice).
const NOZZLES: [usize; 2] = [7, 32];

fn section(fit: &Fit, index: usize) -> Option<&Section> {
    fit.well.sections.get(index)
}

/// Runs a change on a section that exists.
fn turn(fit: &mut Fit, index: usize, change: impl FnOnce(&mut Section)) {
    if let Some(section) = fit.well.sections.get_mut(index) {
        change(section);
    }
}

pub(crate) static MUD_WEIGHT: Knob = Knob {
    name: "mud weight",
    kind: Kind::Density,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(0.1 * PPG),
    get: |fit, index| Some(section(fit, index)?.mud.weight),
    set: |fit, index, value| turn(fit, index, |section| section.mud.weight = value),
    allowed: |_, _| Range::between(800.0, 2_700.0),
};

pub(crate) static FLOW: Knob = Knob {
    name: "flow rate",
    kind: Kind::FlowRate,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(10.0 * GPM),
    get: |fit, index| Some(section(fit, index)?.drilling.flow_rate),
    set: |fit, index, value| turn(fit, index, |section| section.drilling.flow_rate = value),
    allowed: |_, _| Range::between(10.0 * GPM, 2_000.0 * GPM),
};

pub(crate) static PUMPS: Knob = Knob {
    name: "pumps on",
    kind: Kind::Count,
    per_section: true,
    ease: Ease::Today,
    step: Step::Among(|fit, index| (1..=pumps_for_string(fit, index)).map(|number| number as f64).collect()),
    get: |fit, index| Some(section(fit, index)?.drilling.pumps_on as f64),
    set: |fit, index, value| turn(fit, index, |section| section.drilling.pumps_on = whole(value) as usize),
    allowed: |fit, index| Range::between(1.0, pumps_for_string(fit, index) as f64),
};

/// Pumps that may stand on the string: the booster line has one of its own.
fn pumps_for_string(fit: &Fit, index: usize) -> usize {
    let boosted = section(fit, index).is_some_and(|section| section.drilling.booster > 0.0);
    fit.rig.pump.number.saturating_sub(usize::from(boosted)).max(1)
}

pub(crate) static LINER: Knob = Knob {
    name: "liner",
    kind: Kind::Diameter,
    per_section: true,
    ease: Ease::NextTrip,
    step: Step::Among(|fit, _| fit.rig.pump.liners.iter().map(|liner| liner.diameter).collect()),
    get: |fit, index| Some(section(fit, index)?.drilling.liner),
    set: |fit, index, value| turn(fit, index, |section| section.drilling.liner = value),
    allowed: |_, _| Range::POSITIVE,
};

pub(crate) static ROTARY_SPEED: Knob = Knob {
    name: "rotary speed",
    kind: Kind::RotarySpeed,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(10.0 * RPM),
    get: |fit, index| Some(section(fit, index)?.drilling.rotary_speed),
    set: |fit, index, value| turn(fit, index, |section| section.drilling.rotary_speed = value),
    allowed: |_, _| Range::between(0.0, 300.0 * RPM),
};

pub(crate) static WEIGHT_ON_BIT: Knob = Knob {
    name: "weight on bit",
    kind: Kind::Force,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(KLBF),
    get: |fit, index| Some(section(fit, index)?.drilling.weight_on_bit),
    set: |fit, index, value| turn(fit, index, |section| section.drilling.weight_on_bit = value),
    allowed: |_, _| Range::between(0.0, 150.0 * KLBF),
};

pub(crate) static PULLING_SPEED: Knob = Knob {
    name: "pulling speed",
    kind: Kind::Speed,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(SPEED_STEP),
    get: |fit, index| Some(section(fit, index)?.tripping.pulling_speed),
    set: |fit, index, value| turn(fit, index, |section| section.tripping.pulling_speed = value),
    allowed: |_, _| SPEEDS,
};

pub(crate) static RUNNING_SPEED: Knob = Knob {
    name: "running speed",
    kind: Kind::Speed,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(SPEED_STEP),
    get: |fit, index| Some(section(fit, index)?.tripping.running_speed),
    set: |fit, index, value| turn(fit, index, |section| section.tripping.running_speed = value),
    allowed: |_, _| SPEEDS,
};

pub(crate) static CASING_SPEED: Knob = Knob {
    name: "casing running speed",
    kind: Kind::Speed,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(SPEED_STEP),
    get: |fit, index| Some(section(fit, index)?.casing.as_ref()?.running_speed),
    set: |fit, index, value| {
        turn(fit, index, |section| section.casing.iter_mut().for_each(|casing| casing.running_speed = value));
    },
    allowed: |_, _| SPEEDS,
};

const SPEED_STEP: f64 = 5.0 * FOOT / 60.0;
const SPEEDS: Range = Range::between(5.0 * FOOT / 60.0, 400.0 * FOOT / 60.0);

pub(crate) static FLOWING_BACK_PRESSURE: Knob = Knob {
    name: "back pressure, pumping",
    kind: Kind::Pressure,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(25.0 * PSI),
    get: |fit, index| Some(section(fit, index)?.managed_pressure?.flowing),
    set: |fit, index, value| {
        turn(fit, index, |section| section.managed_pressure.iter_mut().for_each(|pressure| pressure.flowing = value));
    },
    allowed: |_, _| BACK_PRESSURES,
};

pub(crate) static STILL_BACK_PRESSURE: Knob = Knob {
    name: "back pressure, pumps off",
    kind: Kind::Pressure,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(25.0 * PSI),
    get: |fit, index| Some(section(fit, index)?.managed_pressure?.still),
    set: |fit, index, value| {
        turn(fit, index, |section| section.managed_pressure.iter_mut().for_each(|pressure| pressure.still = value));
    },
    allowed: |_, _| BACK_PRESSURES,
};

/// Rotating seals hold about 1500 psi while turning (common practice); the crew's own limit is asked elsewhere.
const BACK_PRESSURES: Range = Range::between(0.0, 1_500.0 * PSI);

fn bit(section: &Section) -> Option<&Part> {
    section.string.first().filter(|part| part.kind == PartKind::Bit)
}

pub(crate) static NOZZLE_AREA: Knob = Knob {
    name: "nozzle area",
    kind: Kind::Area,
    per_section: true,
    ease: Ease::NextTrip,
    step: Step::Among(|fit, index| {
        let number = section(fit, index).and_then(bit).and_then(|bit| bit.nozzles);
        number.map_or_else(Vec::new, |number| nozzle_sets(number).map(|set| set.area()).collect())
    }),
    get: |fit, index| bit(section(fit, index)?)?.flow_area,
    set: |fit, index, value| {
        turn(fit, index, |section| {
            if let Some(part) = section.string.first_mut().filter(|part| part.kind == PartKind::Bit) {
                part.flow_area = Some(value);
            }
        });
    },
    allowed: |_, _| Range::POSITIVE,
};

/// Nozzles of one size or of two neighbouring sizes.
struct NozzleSet {
    number: usize,
    /// Of the smaller ones, in 32nds of an inch.
    size: usize,
    /// How many are a size larger.
    larger: usize,
}

impl NozzleSet {
    /// Total flow area. [m²]
    fn area(&self) -> f64 {
        let area = |size: usize| PI / 4.0 * (size as f64 * INCH / 32.0).powi(2);
        area(self.size) * (self.number - self.larger) as f64 + area(self.size + 1) * self.larger as f64
    }

    /// How it is written.
    fn text(&self) -> String {
        let NozzleSet { number, size, larger } = self;
        match larger {
            0 => format!("{number}x{size}"),
            _ => format!("{}x{size}, {larger}x{}", number - larger, size + 1),
        }
    }
}

/// Sets of `number` nozzles, by rising area.
fn nozzle_sets(number: usize) -> impl Iterator<Item = NozzleSet> {
    (NOZZLES[0]..=NOZZLES[1]).flat_map(move |size| {
        let wider = if size < NOZZLES[1] { number } else { 1 };
        (0..wider).map(move |larger| NozzleSet { number, size, larger })
    })
}

/// How the set of nozzles of this total flow area is written, if it is one of the knob's.
pub fn nozzles_text(number: usize, flow_area: f64) -> Option<String> {
    let is_it = |area: f64| (area - flow_area).abs() < 1e-9 * area;
    nozzle_sets(number).find(|set| is_it(set.area())).map(|set| set.text())
}

pub(crate) static CASING_SHOE: Knob = Knob {
    name: "casing seat",
    kind: Kind::Depth,
    per_section: true,
    ease: Ease::NeedsBuying,
    step: Step::By(93.0 * FOOT),
    // The last casing ends where the well ends: that is the purpose of the well, not a choice.
    get: |fit, index| {
        section(fit, index + 1)?;
        Some(section(fit, index)?.casing.as_ref()?.shoe)
    },
    // The section ends and the next begins as far from the shoe as before.
    set: |fit, index, value| {
        let [section, next] = match fit.well.sections.get_mut(index..index + 2) {
            Some([section, next]) => [section, next],
            _ => return,
        };
        if let Some(casing) = &mut *section.casing {
            let by = value - casing.shoe;
            casing.shoe = value;
            section.bottom += by;
            next.top += by;
        }
    },
    allowed: |fit, index| {
        let around = || {
            let (here, next) = (section(fit, index)?, section(fit, index + 1)?);
            let casing = here.casing.as_ref()?;
            let pocket = here.bottom - casing.shoe;
            let low = here.top.max(casing.top).max(casing.cement_top.unwrap_or(0.0)).max(liner_top(fit, index));
            Some(Range { low, high: next.bottom - pocket, low_included: false, high_included: false })
        };
        around().unwrap_or(Range::between(0.0, 0.0))
    },
};

/// The hanger of the next liner, which must stay above the shoe it hangs in; zero for full casing.
fn liner_top(fit: &Fit, index: usize) -> f64 {
    fit.well.sections.iter().skip(index + 1).find_map(|section| section.casing.as_ref()).map_or(0.0, |casing| casing.top)
}

fn casing(fit: &Fit, index: usize) -> Option<&Casing> {
    section(fit, index)?.casing.as_ref()
}

/// Changes a casing that exists; what its connection bears grows and shrinks with the body.
fn recase(fit: &mut Fit, index: usize, change: impl FnOnce(&mut Casing)) {
    let Some(casing) = fit.well.sections.get_mut(index).and_then(|section| section.casing.as_mut()) else { return };
    let strength = |casing: &Casing| {
        let wall = casing.outer_diameter - casing.inner_diameter;
        (casing.yield_strength * wall, wall * (casing.outer_diameter + casing.inner_diameter) * casing.yield_strength)
    };
    let before = strength(casing);
    change(casing);
    let after = strength(casing);
    casing.connection_burst = casing.connection_burst.map(|rating| rating * after.0 / before.0);
    casing.connection_tension = casing.connection_tension.map(|rating| rating * after.1 / before.1);
}

/// Widest thing that has to pass the casing of a section. [m]
fn passes(fit: &Fit, index: usize) -> f64 {
    let below = fit.well.sections.iter().skip(index + 1);
    let casing = |section: &Section| {
        section.casing.as_ref().map_or(0.0, |casing| casing.coupling_diameter.unwrap_or(0.0).max(casing.outer_diameter))
    };
    below.map(|section| section.hole_diameter.max(casing(section))).fold(0.0, f64::max)
}

/// Weights of the table at the size of a casing, with their inside diameter and drift. [kg/m, m, m]
fn weights(fit: &Fit, index: usize) -> impl Iterator<Item = (f64, f64, f64)> {
    let outer_diameter = casing(fit, index).map_or(0.0, |casing| casing.outer_diameter);
    casing_weights(outer_diameter)
        .map(move |(weight, inner_diameter)| (weight, inner_diameter, CasingDrift { outer_diameter, inner_diameter }.value()))
}

pub(crate) static CASING_WEIGHT: Knob = Knob {
    name: "casing weight",
    kind: Kind::LinearMass,
    per_section: true,
    ease: Ease::NeedsBuying,
    step: Step::Among(|fit, index| weights(fit, index).map(|(weight, ..)| weight).collect()),
    get: |fit, index| Some(casing(fit, index)?.linear_mass),
    set: |fit, index, value| {
        let Some((weight, inner_diameter, drift)) = weights(fit, index).find(|(weight, ..)| (weight - value).abs() < 1e-6) else {
            return;
        };
        recase(fit, index, |casing| {
            (casing.linear_mass, casing.inner_diameter, casing.drift) = (weight, inner_diameter, drift);
        });
    },
    // As heavy as still lets pass what is drilled and run below.
    allowed: |fit, index| {
        let now = casing(fit, index).map_or(0.0, |casing| casing.linear_mass);
        let widest = passes(fit, index);
        let heaviest = weights(fit, index).filter(|(.., drift)| *drift >= widest).map(|(weight, ..)| weight).fold(now, f64::max);
        Range { low: 0.0, low_included: false, high: heaviest, high_included: true }
    },
};

/// Grades of casing by rising yield strength. Of two with the same one, the one for all uses.
const CASING_GRADES: [&str; 7] = ["H-40", "J-55", "L-80", "C-90", "T-95", "P-110", "Q-125"];

pub(crate) static CASING_GRADE: Knob = Knob {
    name: "casing grade",
    kind: Kind::Stress,
    per_section: true,
    ease: Ease::NeedsBuying,
    step: Step::Among(|_, _| CASING_GRADES.iter().filter_map(|grade| yield_strength(grade)).collect()),
    get: |fit, index| Some(casing(fit, index)?.yield_strength),
    set: |fit, index, value| {
        let named = CASING_GRADES.iter().find(|grade| yield_strength(grade).is_some_and(|found| (found - value).abs() < 1.0));
        recase(fit, index, |casing| {
            casing.yield_strength = value;
            if let Some(grade) = named {
                casing.grade = (*grade).to_owned();
            }
        });
    },
    allowed: |_, _| Range::POSITIVE,
};

pub(crate) static LINES: Knob = Knob {
    name: "lines strung",
    kind: Kind::Count,
    per_section: false,
    ease: Ease::NextTrip,
    step: Step::Among(|fit, _| {
        let rated = fit.rig.mast.hook_load.iter().map(|(lines, _)| *lines);
        rated.filter(|lines| fits_sheaves(*lines, fit.rig.crown.sheaves, fit.rig.block.sheaves)).map(f64::from).collect()
    }),
    get: |fit, _| Some(f64::from(fit.rig.line.strung)),
    set: |fit, _, value| fit.rig.line.strung = whole(value),
    allowed: |_, _| Range::POSITIVE,
};

/// Whether this many lines can be strung: each turn takes a sheave of the block, and the crown needs one more,
/// for the fast line.
pub(crate) fn fits_sheaves(lines: u32, crown: u32, block: u32) -> bool {
    lines.is_multiple_of(2) && lines / 2 <= block && lines / 2 < crown
}

pub(crate) static SETS_ON_LINE: Knob = Knob {
    name: "generator sets on line",
    kind: Kind::Count,
    per_section: false,
    ease: Ease::Today,
    step: Step::Among(|fit, _| (1..=fit.rig.sets.number).map(f64::from).collect()),
    get: |fit, _| Some(f64::from(fit.rig.sets.on_line)),
    set: |fit, _, value| fit.rig.sets.on_line = whole(value),
    allowed: |fit, _| Range::between(1.0, f64::from(fit.rig.sets.number)),
};

pub(crate) static DIVERTER_LINE: Knob = Knob {
    name: "diverter line",
    kind: Kind::Diameter,
    per_section: false,
    ease: Ease::NeedsBuying,
    // Inside diameters as they are built (common practice).
    step: Step::Among(|_, _| [6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0].map(|inches| inches * INCH).to_vec()),
    get: |fit, _| fit.rig.diverter?.line_inside,
    set: |fit, _, value| fit.rig.diverter.iter_mut().for_each(|diverter| diverter.line_inside = Some(value)),
    allowed: |_, _| Range::between(2.0 * INCH, 30.0 * INCH),
};

pub(crate) static CEMENT_WAIT: Knob = Knob {
    name: "wait on cement",
    kind: Kind::Time,
    per_section: true,
    ease: Ease::Today,
    step: Step::By(HOUR),
    get: |fit, index| casing(fit, index)?.cement_wait.drill_out,
    set: |fit, index, value| {
        turn(fit, index, |section| section.casing.iter_mut().for_each(|casing| casing.cement_wait.drill_out = Some(value)));
    },
    allowed: |_, _| Range::between(HOUR, 240.0 * HOUR),
};

fn whole(value: f64) -> u32 {
    value.round().max(0.0) as u32
}
