//! A shoe test read from its record of volume and pressure: the line, the pick with its interval, and what the shoe is good for.

use super::{Cell, Maker, Method, PEOPLE, Procedure, Refused};
use crate::{Basis, Scene, sweep};
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::control::leak_off::{PumpIn, PumpInVolume, ShoeTest, shoe_test};
use rigwright_physics::control::limits::LeakOffWeight;
use rigwright_physics::control::rounding::round_down;
use rigwright_physics::{Formula, Kind, Recorder, Working};
use rigwright_well::{Fit, Operation};

/// Scatter below this means nothing: gauges are read to 5 psi, common practice. [Pa]
const GAUGE: f64 = 34_473.786_465_841_81;
/// Step in which a mud weight is said: 0.1 ppg. [kg/m³]
const WEIGHT_STEP: f64 = 11.982_642_731_689_663;

static METHOD: Method = Method {
    slug: "leak-off",
    title: "shoe test from its record",
    asks: "volume pumped and pressure of a shoe test: the straight line, where the record leaves it, and the equivalent mud weight",
    inputs: &[],
    cautions: &[
        "a leak-off weight holds at the shoe; weaker zones below may exist",
        "an integrity test stops before leak-off: it is no fracture pressure and is labelled FIT",
        "pressure at surface while pumping holds friction and gel as well: read it after the pump stops where the two differ",
        "gas in the lines, a channel behind the casing or rock that yields bends the record without leak-off",
        PEOPLE,
    ],
    make: |_| Err(Refused { why: String::new(), help: String::new() }),
};

const COLUMNS: &[(&str, Option<Kind>)] = &[
    ("volume", Some(Kind::Volume)),
    ("pressure", Some(Kind::Pressure)),
    ("line", Some(Kind::Pressure)),
    ("off the line", Some(Kind::Pressure)),
    ("mud alone", Some(Kind::Pressure)),
    ("", None),
];

/// A shoe test with everything that was found in its record.
#[derive(Clone, Debug)]
pub struct ShoeTested {
    /// The steps as they are printed.
    pub procedure: Procedure,
    /// Index of the section whose casing was tested.
    pub section: usize,
    /// Measured and vertical depth of the shoe. [m]
    pub shoe: (f64, f64),
    /// Mud weight of the test. [kg/m³]
    pub mud_weight: f64,
    /// Readings in the order of pumping.
    pub record: Vec<PumpIn>,
    /// The line, the pick, the highest pressure.
    pub test: ShoeTest,
    /// The pressure that counts: leak-off as picked, or the highest reached. [Pa]
    pub pressure: f64,
    /// The same as a mud weight at the shoe. [kg/m³]
    pub weight: f64,
    /// The same rounded down to the step in which mud weights are said. [kg/m³]
    pub rounded: f64,
    /// Mud weight below which leak-off lies, where it was met. [kg/m³]
    pub at_most: Option<f64>,
    /// Volume for the highest pressure by the record's line. [m³]
    pub taken: f64,
    /// The same by mud alone, which gives way least; nought where its compressibility is. [m³]
    pub mud_alone: f64,
}

impl ShoeTested {
    /// Whether the record never left its line: an integrity test, and no fracture pressure.
    pub fn integrity_only(&self) -> bool {
        self.test.pick.is_none()
    }

    /// Pressure that mud alone would show at a volume; `None` where its compressibility is nought. [Pa]
    pub fn alone(&self, volume: f64) -> Option<f64> {
        (self.mud_alone > 0.0).then(|| self.test.highest * (volume / self.mud_alone))
    }

    /// Points of the line at the first and the last volume: volume and pressure. [m³, Pa]
    pub fn line(&self) -> [(f64, f64); 2] {
        let volume = |point: Option<&PumpIn>| point.map_or(0.0, |point| point.volume);
        [self.record.first(), self.record.last()].map(|point| (volume(point), self.test.line.at(volume(point))))
    }
}

/// The test of the shoe of a section's own casing, with the mud of the section unless another weight is given. [kg/m³]
pub fn leak_off(fit: &Fit, section: usize, record: &[PumpIn], weight: Option<f64>) -> Result<Procedure, Refused> {
    shoe_tested(fit, section, record, weight).map(|tested| tested.procedure)
}

/// The same with its figures as values.
pub fn shoe_tested(fit: &Fit, section: usize, record: &[PumpIn], weight: Option<f64>) -> Result<ShoeTested, Refused> {
    let no_casing = || Refused::new("the section ends in no casing whose shoe could be tested", "choose another with --section");
    let this = fit.well.sections.get(section).ok_or_else(no_casing)?;
    let casing = this.casing.as_ref().ok_or_else(no_casing)?;
    let Some(test) = shoe_test(record, GAUGE) else {
        return Err(Refused::new(
            "this is no record of a shoe test: it has fewer than five points, its volume does not grow, or its pressure does not rise",
            "one row a reading, in the order of pumping, volume pumped in all",
        ));
    };
    let basis = Basis::new(fit);
    let situation = sweep::situation(fit, section, Operation::Connection, this.bottom, casing.shoe.min(this.bottom));
    let scene = Scene::new(&basis, situation);
    let mut maker = Maker {
        scene: &scene,
        method: &METHOD,
        typed: &[],
        used: Vec::new(),
        blocks: Vec::new(),
        working: Working::default(),
        short: false,
    };
    let (shoe_depth, gravity) = (scene.vertical_depth(casing.shoe), scene.gravity());
    let mud_weight = weight.unwrap_or(this.mud.weight);
    maker.heading("what was tested");
    maker.say(casing.name.clone());
    maker.figure("shoe at measured depth", casing.shoe, Kind::Depth);
    maker.figure("vertical", shoe_depth, Kind::Depth);
    maker.figure("mud weight of the test", mud_weight, Kind::Density);

    maker.heading("what the record tells");
    maker.figure("points on the line", test.on_line as f64, Kind::Count);
    maker.figure("standard deviation from it", test.line.deviation, Kind::Pressure);
    let emw = |surface_pressure: f64| LeakOffWeight { surface_pressure, mud_weight, shoe_depth, gravity };
    let at_most = test.pick.map(|pick| emw(pick.at_most).value());
    let equivalent = match test.pick {
        Some(pick) => {
            maker.say("LOT: the record leaves its line.");
            maker.figure("leak-off pressure: the last point on the line", pick.pressure, Kind::Pressure);
            maker.figure("it lies below: the line at the next point", pick.at_most, Kind::Pressure);
            maker.working.heading("leak-off as a mud weight");
            let weight = maker.working.take(emw(pick.pressure));
            maker.figure("leak-off weight, unrounded", weight, Kind::Density);
            maker.figure("leak-off weight, rounded down", round_down(weight, WEIGHT_STEP), Kind::Density);
            maker.figure("interval of the pick, as a mud weight", emw(pick.at_most).value() - weight, Kind::Density);
            weight
        }
        None => {
            maker.warn("FIT: the record never leaves its line. This is an integrity test, not a fracture pressure.");
            maker.figure("highest pressure reached", test.highest, Kind::Pressure);
            maker.working.heading("what was reached, as a mud weight");
            let weight = maker.working.take(emw(test.highest));
            maker.figure("integrity shown up to, unrounded", weight, Kind::Density);
            maker.figure("rounded down", round_down(weight, WEIGHT_STEP), Kind::Density);
            weight
        }
    };
    let capacity = BoreCapacity { inner_diameter: casing.inner_diameter };
    maker.working.heading("the line that mud alone would make");
    let mud_volume = maker.working.take(capacity) * casing.shoe;
    maker.working.given("mud inside the casing, pipe left out", mud_volume, Kind::Volume);
    let mud = PumpInVolume {
        pressure: test.highest.max(0.0),
        compressibility: this.mud.compressibility,
        mud_volume,
        casing_volume: 0.0,
        casing_compressibility: 0.0,
        open_volume: 0.0,
        poisson_ratio: 0.25,
        young_modulus: 2e10,
    };
    let least = maker.working.take(mud);
    let taken = test.highest / test.line.stiffness;
    maker.heading("stiffness");
    maker.say("Volume for the highest pressure, by the line of the record and by mud alone, which gives way least:");
    maker.figure("by the record's line", taken, Kind::Volume);
    maker.figure("by mud alone", least, Kind::Volume);
    if least > 0.0 && taken < 0.9 * least {
        maker.warn("The record is stiffer than mud alone can be: less mud was pressed than stands in the casing, or a volume, a unit or the compressibility is wrong.");
    } else if least > 0.0 && taken > 3.0 * least {
        maker.warn(
            "The record is much softer than mud alone: gas in the system, a channel behind the casing, or a leak at surface.",
        );
    }
    let mut tested = ShoeTested {
        procedure: Procedure {
            method: METHOD.slug,
            title: METHOD.title,
            cautions: METHOD.cautions,
            situation,
            used: Vec::new(),
            blocks: Vec::new(),
            working: Working::default(),
            short: false,
        },
        section,
        shoe: (casing.shoe, shoe_depth),
        mud_weight,
        record: record.to_vec(),
        pressure: test.pick.map_or(test.highest, |pick| pick.pressure),
        test,
        weight: equivalent,
        rounded: round_down(equivalent, WEIGHT_STEP),
        at_most,
        taken,
        mud_alone: least,
    };
    maker.heading("the plot in numbers");
    maker.table("point by point", COLUMNS, rows(&tested));
    let Maker { used, blocks, working, short, .. } = maker;
    tested.procedure = Procedure { used, blocks, working, short, ..tested.procedure };
    Ok(tested)
}

/// The plot in numbers.
fn rows(tested: &ShoeTested) -> Vec<Vec<Cell>> {
    let ShoeTested { test, record, .. } = tested;
    let row = |(index, point): (usize, &PumpIn)| {
        let line = test.line.at(point.volume);
        vec![
            Cell::Value(point.volume),
            Cell::Value(point.pressure),
            Cell::Value(line),
            Cell::Value(point.pressure - line),
            Cell::Value(tested.alone(point.volume).unwrap_or(0.0)),
            Cell::Words(if test.pick.is_some() && index + 1 == test.on_line {
                "<- pick"
            } else if index < test.on_line {
                ""
            } else {
                "off"
            }),
        ]
    };
    record.iter().enumerate().map(row).collect()
}
