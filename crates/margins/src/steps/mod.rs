//! Step tables ready to follow: killing and holding a well without circulating, stripping, and the plan of managed pressure.
//!
//! A method declares its inputs; what is not typed comes from the design kick and the files, and says so. Tables hold plain
//! SI values and words; every formula on the way is in the working. What would lead the crew into a second influx is refused.

mod bullhead;
mod gas;
mod leak_off;
mod lubricate;
mod managed;
mod migration;
mod off_bottom;
mod strip;
mod volumetric;

#[cfg(test)]
mod tests;

pub use leak_off::{ShoeTested, leak_off, shoe_tested};
pub use rigwright_physics::control::leak_off::PumpIn;

use crate::answer::Figure;
use crate::{Basis, Scene, sweep};
use rigwright_physics::control::kick::FormationPressure;
use rigwright_physics::{Kind, Range, Recorder, Working};
use rigwright_well::{Fit, Operation, Situation};

/// Every method, in the order of the list.
pub static METHODS: [&Method; 7] = [
    &volumetric::METHOD,
    &lubricate::METHOD,
    &bullhead::METHOD,
    &strip::METHOD,
    &off_bottom::METHOD,
    &migration::METHOD,
    &managed::METHOD,
];

/// The method of this slug.
pub fn method(slug: &str) -> Option<&'static Method> {
    METHODS.into_iter().find(|method| method.slug == slug)
}

/// A method that ends in a table of steps.
pub struct Method {
    /// Word on the command line.
    pub slug: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// When and what for.
    pub asks: &'static str,
    /// What may be typed.
    pub inputs: &'static [Input],
    /// What the steps take for granted, and what to beware of.
    pub cautions: &'static [&'static str],
    make: fn(&mut Maker) -> Result<(), Refused>,
}

/// Something that may be typed.
#[derive(Clone, Copy, Debug)]
pub struct Input {
    /// Its key.
    pub key: &'static str,
    /// Its kind.
    pub kind: Kind,
    /// What it is.
    pub meaning: &'static str,
    /// Where it comes from when it is not typed; `None` when it must be.
    pub otherwise: Option<&'static str>,
    /// What it must be.
    pub must: Range,
}

/// Where a value came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Typed.
    Typed,
    /// From the files, the design kick or common practice; which.
    Otherwise(&'static str),
}

/// A value that the steps rest on. [SI]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Used {
    /// Its key.
    pub key: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// Its value.
    pub value: f64,
    /// Its kind.
    pub kind: Kind,
    /// Where it came from.
    pub origin: Origin,
}

/// Why there are no steps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// What is wrong.
    pub why: String,
    /// What to do instead.
    pub help: String,
}

/// A piece of the paper.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// Start of a part.
    Heading(&'static str),
    /// A sentence; figures with units stand in `Figure`.
    Say(String),
    /// A sentence that must not be overlooked.
    Warn(String),
    /// A figure.
    Figure(Figure),
    /// Rows of figures and words.
    Table(Table),
}

/// Rows of figures and words.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What the rows are.
    pub title: &'static str,
    /// Name and kind of each column; words have none.
    pub columns: Vec<(&'static str, Option<Kind>)>,
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
}

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A value of the column's kind. [SI]
    Value(f64),
    /// Words.
    Words(&'static str),
    /// Nobody knows, or nothing is to be said.
    Blank,
}

/// Steps ready to follow.
#[derive(Clone, Debug)]
pub struct Procedure {
    /// Slug of the method.
    pub method: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// What it takes for granted.
    pub cautions: &'static [&'static str],
    /// Where the well stands.
    pub situation: Situation,
    /// What the steps rest on.
    pub used: Vec<Used>,
    /// The paper.
    pub blocks: Vec<Block>,
    /// How the figures came about.
    pub working: Working,
    /// Whether a limit is passed on the way.
    pub short: bool,
}

/// Where the well stands when the steps begin.
#[derive(Clone, Copy, Debug, Default)]
pub struct Where {
    /// Index of the section; the last without one.
    pub section: Option<usize>,
    /// Measured depth of the hole; the end of the section without one. [m]
    pub hole_depth: Option<f64>,
    /// Measured depth of the bit; on bottom without one. [m]
    pub bit_depth: Option<f64>,
}

/// The steps of a method with what was typed, keys of the method's inputs only.
pub fn procedure(fit: &Fit, method: &'static Method, place: Where, typed: &[(&'static str, f64)]) -> Result<Procedure, Refused> {
    let basis = Basis::new(fit);
    let last = fit.well.sections.len().saturating_sub(1);
    let section = place.section.unwrap_or(last).min(last);
    let bottom = fit.well.sections[section].bottom;
    let hole_depth = place.hole_depth.unwrap_or(bottom).clamp(fit.well.sections[section].top, bottom);
    let bit_depth = place.bit_depth.unwrap_or(hole_depth).min(hole_depth);
    let situation = sweep::situation(fit, section, Operation::ShutIn, hole_depth, bit_depth);
    let scene = Scene::new(&basis, situation);
    let mut maker =
        Maker { scene: &scene, method, typed, used: Vec::new(), blocks: Vec::new(), working: Working::default(), short: false };
    (method.make)(&mut maker)?;
    let Maker { used, blocks, working, short, .. } = maker;
    let (title, cautions) = (method.title, method.cautions);
    Ok(Procedure { method: method.slug, title, cautions, situation, used, blocks, working, short })
}

/// A paper in the making.
struct Maker<'a, 'b> {
    scene: &'a Scene<'b>,
    method: &'static Method,
    typed: &'a [(&'static str, f64)],
    used: Vec<Used>,
    blocks: Vec<Block>,
    working: Working,
    short: bool,
}

impl Refused {
    fn new(why: impl Into<String>, help: impl Into<String>) -> Refused {
        Refused { why: why.into(), help: help.into() }
    }

    /// An entry of the files is wanting.
    fn missing(entry: &str) -> Refused {
        Refused::new(format!("the files do not give `{entry}`"), "add it, or type what the steps need".to_owned())
    }
}

impl Maker<'_, '_> {
    /// What was typed for a key. [SI]
    fn typed(&self, key: &str) -> Option<f64> {
        self.typed.iter().find(|(typed, _)| *typed == key).map(|(_, value)| *value)
    }

    /// The value of a key, typed or otherwise; noted as used.
    fn value(&mut self, key: &'static str, otherwise: Option<f64>) -> Result<f64, Refused> {
        let Some(input) = self.method.inputs.iter().find(|input| input.key == key) else {
            return Err(Refused::new(format!("`{key}` is no input of this method"), ""));
        };
        let (value, origin) = match (self.typed(key), otherwise, input.otherwise) {
            (Some(value), ..) => (value, Origin::Typed),
            (None, Some(value), Some(source)) => (value, Origin::Otherwise(source)),
            _ => {
                let why = format!("`{key}` is wanting: {}", input.meaning);
                return Err(Refused::new(why, format!("type {key}=\"...\" with its unit")));
            }
        };
        if !input.must.contains(value) {
            let why = format!("`{key}` is out of its range: {}", input.meaning);
            return Err(Refused::new(why, "check the reading and its unit"));
        }
        self.used.push(Used { key, meaning: input.meaning, value, kind: input.kind, origin });
        self.working.given(input.meaning, value, input.kind);
        Ok(value)
    }

    fn heading(&mut self, title: &'static str) {
        self.blocks.push(Block::Heading(title));
    }

    fn say(&mut self, words: impl Into<String>) {
        self.blocks.push(Block::Say(words.into()));
    }

    /// Something that must not be overlooked.
    fn warn(&mut self, words: impl Into<String>) {
        self.blocks.push(Block::Warn(words.into()));
    }

    /// A limit is passed.
    fn pass(&mut self, words: impl Into<String>) {
        self.short = true;
        self.warn(words);
    }

    fn figure(&mut self, name: &'static str, value: f64, kind: Kind) {
        self.blocks.push(Block::Figure(Figure { name, value, kind }));
    }

    fn table(&mut self, title: &'static str, columns: &[(&'static str, Option<Kind>)], rows: Vec<Vec<Cell>>) {
        self.blocks.push(Block::Table(Table { title, columns: columns.to_vec(), rows }));
    }

    /// Mud weight in the hole. [kg/m³]
    fn mud_weight(&self) -> f64 {
        self.scene.section().mud.weight
    }

    /// Weight of a column of the mud per height. [Pa/m]
    fn mud_gradient(&self) -> f64 {
        self.mud_weight() * self.scene.gravity()
    }

    /// Formation pressure: from the drill pipe gauge where it was typed, else that of the design kick. [Pa]
    fn formation_pressure(&mut self) -> Result<f64, Refused> {
        let scene = self.scene;
        let (mud_weight, gravity) = (self.mud_weight(), scene.gravity());
        let vertical_depth = scene.vertical_depth(scene.situation.bit_depth);
        let designed = scene.fit().well.kick.intensity.map(|intensity| {
            let below = scene.vertical_depth(scene.situation.hole_depth) * intensity * gravity;
            below + scene.situation.back_pressure
        });
        let drill_pipe_pressure = self.value("sidpp", designed)?;
        let formation = FormationPressure { drill_pipe_pressure, mud_weight, vertical_depth, gravity };
        Ok(self.working.take(formation))
    }

    /// The volume that came in. [m³]
    fn gain(&mut self) -> Result<f64, Refused> {
        let designed = self.scene.fit().well.kick.volume;
        self.value("gain", designed)
    }
}

const SIDPP: Input = Input {
    key: "sidpp",
    kind: Kind::Pressure,
    meaning: "shut-in drill pipe pressure, float bumped",
    otherwise: Some("intensity of the design kick"),
    must: Range::NON_NEGATIVE,
};

const SICP: Input = Input {
    key: "sicp",
    kind: Kind::Pressure,
    meaning: "shut-in casing pressure",
    otherwise: Some("the design kick, one bubble of gas at the bottom"),
    must: Range::NON_NEGATIVE,
};

const GAIN: Input = Input {
    key: "gain",
    kind: Kind::Volume,
    meaning: "volume that came in: gain of the pits",
    otherwise: Some("volume of the design kick"),
    must: Range::between(0.001, 500.0),
};

const MARGIN: Input = Input {
    key: "margin",
    kind: Kind::Pressure,
    meaning: "margin above formation pressure that is kept all the time",
    otherwise: Some("common practice: 50 to 200 psi; 100 psi"),
    must: Range::NON_NEGATIVE,
};

const STEP: Input = Input {
    key: "step",
    kind: Kind::Pressure,
    meaning: "rise of casing pressure for one step",
    otherwise: Some("common practice: 50 to 100 psi; 100 psi"),
    must: Range::between(1e4, 1e7),
};

/// 100 psi, the usual margin and step. [Pa]
const HUNDRED_PSI: f64 = 689_475.729_316_836_1;

const SINGLE_BUBBLE: &str = "one bubble of gas that fills the annulus over its length, as warm as the rock around it: no slip, no solution, no dispersion; in oil-based mud gas dissolves, comes out late and all at once, and these steps are not to be relied on";
const PEOPLE: &str = "planning and training aid: the approved well-control manual, local rules and a certified person on site decide; a second person recomputes";
const STANDARD_INVALID: &str = "not for H2S, shallow gas, losses with a kick, underground flow, a washed-out string or a plugged bit without a plan of their own";
const NOT_A_SET_POINT: &str = "a limit is not a set point of the choke: opening it below the schedule to respect a limit lets in a second influx, and is a decision of the person in charge";
