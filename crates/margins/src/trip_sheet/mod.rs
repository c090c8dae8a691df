//! The trip sheet: what each stand should take or give, how far the mud falls unfilled, the slug, and what pulling swabs.
//!
//! Volumes follow the steel of the pipe with its joints; pulled wet, the bore is counted as well. Swab and surge are those
//! of the circulating system, at the weakest depth of open hole.

mod fill;
mod rows;

#[cfg(test)]
mod tests;

pub(crate) use fill::kinds;
pub use fill::{ALLOWED_FALL, ALLOWED_STANDS, Each, Fill, Way};
pub use rows::{FASTEST, JOINTS, Moved, Row, Stretch};

use crate::circulating::pumps::pump_output;
use crate::kill_sheet::Constants;
use crate::kill_sheet::lengths::scaled;
use crate::{Basis, Remark, Scene, sweep};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::circulating::rheology::YieldPoint;
use rigwright_physics::control::trips::{SlugDryLength, SlugGain, TripMarginFromYield};
use rigwright_physics::{Formula, Kind, Recorder};
use rigwright_well::{Fit, Operation, PartKind};

/// Which way pipe goes, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Out of the hole.
    Out {
        /// Its mud comes out with the pipe and is not given back.
        wet: bool,
    },
    /// Into the hole.
    In {
        /// On a float: mud does not come in from below, and the bore displaces as well.
        float: bool,
    },
    /// Casing or liner into the hole.
    Casing {
        /// On a float that is closed.
        float: bool,
    },
}

impl Run {
    /// Whether the bore counts.
    pub fn with_bore(self) -> bool {
        match self {
            Run::Out { wet } => wet,
            Run::In { float } | Run::Casing { float } => float,
        }
    }
}

/// What a trip sheet is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Order {
    /// Index of the section.
    pub section: usize,
    /// Measured depth of the hole. [m]
    pub hole_depth: f64,
    /// Measured depth of the bit or shoe: where the way out begins or the way in ends. [m]
    pub bit_depth: f64,
    /// Which way.
    pub run: Run,
}

/// A slug in the top of the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlugSet {
    /// Its volume. [m³]
    pub volume: f64,
    /// Its weight. [kg/m³]
    pub weight: f64,
    /// Length of pipe that it leaves dry. [m]
    pub dry_length: f64,
    /// What comes back while it falls: no influx. [m³]
    pub gain: f64,
}

/// Trip margins beside each other. [kg/m³]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TripMargin {
    /// What the well file wants.
    pub wanted: f64,
    /// What swabbing takes at the planned speed, at the tightest depth: from the surge model.
    pub swab: Option<f64>,
    /// The old rule from the yield point.
    pub by_yield: Option<f64>,
}

/// A trip sheet.
#[derive(Clone, Debug)]
pub struct TripSheet {
    /// What it was asked for.
    pub order: Order,
    /// Constants of the filling and the slug; all else is exact.
    pub constants: Constants,
    /// Mud weight. [kg/m³]
    pub mud_weight: f64,
    /// Output of one stroke of one pump; `None` for a duplex whose rod nobody gave. [m³]
    pub pump_output: Option<f64>,
    /// Speed planned for the pipe, the mean over a stand. [m/s]
    pub speed: f64,
    /// Filling for each kind of pipe.
    pub kinds: Vec<Fill>,
    /// The slug, on the way out dry.
    pub slug: Option<SlugSet>,
    /// What is moved, in the order in which it is.
    pub stretches: Vec<Stretch>,
    /// Capacity of the top of the hole, without any pipe. [m³/m]
    pub top_capacity: Option<f64>,
    /// Stand by stand.
    pub rows: Vec<Row>,
    /// The row with the least room left for swab or surge.
    pub tightest: Option<Row>,
    /// The trip margin, on the way out.
    pub margin: Option<TripMargin>,
    /// Volume of the trip tank. [m³]
    pub trip_tank: Option<f64>,
    /// What to beware of.
    pub cautions: Vec<Remark>,
}

impl TripSheet {
    /// All that the hole should take or give. [m³]
    pub fn total(&self) -> f64 {
        self.rows.last().map_or(0.0, |row| row.total)
    }

    /// How many trip tanks that is, the last one begun; `None` where the tank is unknown.
    pub fn tanks(&self) -> Option<f64> {
        self.trip_tank.map(|tank| (self.total() / tank).ceil())
    }
}

/// The trip sheet of a section, or why there can be none.
pub fn trip_sheet<R: Recorder>(fit: &Fit, order: &Order, rec: &mut R) -> Result<TripSheet, Vec<Remark>> {
    trip_sheet_by(fit, order, Constants::EXACT, rec)
}

/// The same by exact constants, or by those of the trade.
pub fn trip_sheet_by<R: Recorder>(fit: &Fit, order: &Order, constants: Constants, rec: &mut R) -> Result<TripSheet, Vec<Remark>> {
    let basis = Basis::new(fit);
    let operation = match order.run {
        Run::Out { .. } => Operation::PullingOut,
        Run::In { .. } => Operation::RunningIn,
        Run::Casing { .. } => Operation::RunningCasing,
    };
    let scene = Scene::new(&basis, sweep::situation(fit, order.section, operation, order.hole_depth, order.bit_depth));
    let section = scene.section();
    if fit.open_to_sea(order.section).is_some() {
        return Err(vec![Remark::new(
            "no riser yet: the hole is open to the sea, which keeps it full; nothing comes back to be counted",
        )]);
    }
    if matches!(order.run, Run::Casing { .. }) && section.casing.is_none() {
        return Err(vec![Remark::new("no casing is run at the end of this section (`section[].casing`)")]);
    }
    let kinds = kinds(&scene, &constants, rec);
    let slug = slug(&scene, order, &constants, rec);
    rec.heading("stand by stand");
    let pipes = rows::stretches(&scene, order, &constants);
    let (rows, missing) = rows::rows(&scene, order, &constants, &pipes, rec);
    let least = |a: &&Row, b: &&Row| {
        let left = |row: &Row| row.moved.map_or(f64::INFINITY, |moved| moved.left);
        left(a).total_cmp(&left(b))
    };
    let tightest = rows.iter().filter(|row| row.moved.is_some()).min_by(least).cloned();
    let margin = matches!(order.run, Run::Out { .. }).then(|| margin(&scene, tightest.as_ref(), rec));
    let mut sheet = TripSheet {
        order: *order,
        constants,
        mud_weight: section.mud.weight,
        pump_output: pump_output(&scene, rec).map(|exact| exact * constants.output),
        speed: scene.situation.pipe_speed,
        kinds,
        slug,
        stretches: pipes.into_iter().map(|(_, stretch)| stretch).collect(),
        top_capacity: fill::top_of_hole(&scene)
            .map(|diameter| BoreCapacity { inner_diameter: diameter }.value() * constants.capacity),
        rows,
        tightest,
        margin,
        trip_tank: fit.rig.pits.trip_tank,
        cautions: Vec::new(),
    };
    sheet.cautions = cautions(&scene, &sheet, missing);
    Ok(sheet)
}

/// The slug of the well file in the pipe at the top of the string; one no heavier than the mud leaves no pipe dry.
fn slug<R: Recorder>(scene: &Scene, order: &Order, constants: &Constants, rec: &mut R) -> Option<SlugSet> {
    let mud_weight = scene.section().mud.weight;
    let slug = scene.section().tripping.slug.filter(|_| order.run == Run::Out { wet: false })?;
    if slug.weight <= mud_weight {
        rec.note(|| "the slug is not heavier than the mud: it leaves no pipe dry".to_owned());
        return None;
    }
    let top = scene.string().last()?;
    rec.heading("slug");
    let capacity = rec.take(BoreCapacity { inner_diameter: top.pipe.inner_diameter() });
    let capacity = scaled(capacity, constants.capacity, Kind::VolumePerLength, rec);
    let dry_length = rec.take(SlugDryLength { slug_volume: slug.volume, capacity, slug_weight: slug.weight, mud_weight });
    let gain = rec.take(SlugGain { dry_length: dry_length.max(0.0), capacity });
    Some(SlugSet { volume: slug.volume, weight: slug.weight, dry_length, gain })
}

fn margin<R: Recorder>(scene: &Scene, tightest: Option<&Row>, rec: &mut R) -> TripMargin {
    let section = scene.section();
    rec.heading("trip margin");
    let swab = tightest.and_then(|row| row.moved).and_then(|moved| {
        let vertical_depth = scene.vertical_depth(moved.weakest);
        let (pressure, gravity) = (moved.change.max(0.0), scene.gravity());
        (vertical_depth > 0.0).then(|| rec.take(EquivalentMudWeight { pressure, vertical_depth, gravity }))
    });
    let pipe = section.string.iter().rev().find(|part| part.kind == PartKind::DrillPipe);
    let gap = pipe.map(|pipe| section.open_diameter() - pipe.outer_diameter).filter(|gap| *gap > 0.0);
    let dials = section.mud.rheogram.dial(600.0).zip(section.mud.rheogram.dial(300.0));
    let by_yield = gap.zip(dials).map(|(diameter_difference, (dial_600, dial_300))| {
        let yield_point = rec.take(YieldPoint { dial_600, dial_300 }).max(0.0);
        rec.take(TripMarginFromYield { yield_point, diameter_difference })
    });
    TripMargin { wanted: scene.fit().well.margins.trip, swab, by_yield }
}

fn cautions(scene: &Scene, sheet: &TripSheet, missing: Option<&'static str>) -> Vec<Remark> {
    let mut cautions = Vec::new();
    if let Some((row, moved)) = sheet.tightest.as_ref().and_then(|row| Some((row, row.moved?)))
        && moved.left < 0.0
    {
        let out = matches!(sheet.order.run, Run::Out { .. });
        let (does, than) = if out { ("swabs the hole below", "pull") } else { ("surges the hole above", "run") };
        cautions.push(
            Remark::new(format!("the planned speed {does} its limit, the wanted margin counted in: {than} slower there"))
                .with("with the bit at", if out { row.bit_depth + row.length } else { row.bit_depth }, Kind::Depth)
                .with("at", moved.weakest, Kind::Depth)
                .with("lacking", -moved.left, Kind::Pressure)
                .with("planned", sheet.speed, Kind::Speed)
                .with("fastest that keeps it", moved.fastest, Kind::Speed),
        );
    }
    if let Some(entry) = missing {
        cautions.push(Remark::new(format!("swab and surge are unknown, not nought: `{entry}` is not given")));
    } else if sheet.tightest.is_none() {
        cautions.push(Remark::new("no hole is open: swab and surge bear on nothing"));
    }
    if let Some(margin) = &sheet.margin
        && margin.swab.is_some_and(|swab| swab > margin.wanted)
    {
        cautions.push(
            Remark::new("swabbing takes more than the trip margin of the well file")
                .with("swab", margin.swab.unwrap_or_default(), Kind::Density)
                .with("trip margin", margin.wanted, Kind::Density),
        );
    }
    cautions.extend(slug_cautions(scene, sheet));
    if sheet.trip_tank.is_none() {
        cautions.push(Remark::new("the trip tank is unknown (`rig.pits.trip_tank`): how often it is refilled is not told"));
    }
    cautions
}

fn slug_cautions(scene: &Scene, sheet: &TripSheet) -> Vec<Remark> {
    let mut cautions = Vec::new();
    let (stand, top) = (scene.fit().rig.mast.stand, scene.string().last());
    match &sheet.slug {
        Some(slug) if slug.dry_length < stand => cautions.push(
            Remark::new("the slug leaves less than a stand dry: pipe comes out wet")
                .with("dry", slug.dry_length, Kind::Depth)
                .with("stand", stand, Kind::Depth),
        ),
        Some(slug) => {
            let room = top.map_or(0.0, |piece| piece.bottom - piece.top);
            let capacity = top.map_or(0.0, |piece| BoreCapacity { inner_diameter: piece.pipe.inner_diameter() }.value());
            if capacity > 0.0 && slug.volume / capacity + slug.dry_length > room {
                cautions.push(Remark::new("the slug does not fit into the upper pipe: what it leaves dry is another length"));
            }
        }
        None if sheet.order.run == (Run::Out { wet: false }) => cautions.push(Remark::new(
            "no slug is given (`section[].tripping.slug`): pipe comes out dry only where its mud falls by itself",
        )),
        None => {}
    }
    cautions
}
