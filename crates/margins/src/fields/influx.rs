//! The gas that a kick would bring: which gas, where it would stand, and the pressure that may come to surface.

use crate::Scene;
use crate::fields::column::Leg;
use crate::fields::open_hole::Point;
use crate::fields::per_section::PerSection;
use rigwright_physics::circulating::column::{EquivalentMudWeight, Hydrostatic};
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::control::annulus::{Annulus, AnnulusSection};
use rigwright_physics::control::bubble::{GasLaw, GasPath};
use rigwright_physics::control::criticals::NaturalGas;
use rigwright_physics::control::gas::{Gas, ZMethod};
use rigwright_physics::control::gas_column::{ColumnPoint, GasColumn};
use rigwright_physics::control::kick::KickFormationPressure;
use rigwright_physics::control::limits::{GasToSurfacePressure, Maasp, ShoeFractureSurfacePressure};
use rigwright_physics::control::tolerance::KickWell;
use rigwright_physics::{Formula, Kind, Off, Recorder, STANDARD_ATMOSPHERE};
use rigwright_well::{Fit, Well};

/// How far a piece of annulus may bow off a straight line, in vertical depth. [m]
const BOW: f64 = 0.1;
/// A piece shorter than this is taken as straight. [m]
const SHORT: f64 = 5.0;
/// Steps over a column of gas.
const STEPS: u32 = 20;

/// What the kick questions read in every situation of a fit.
pub struct Prepared {
    /// The gas.
    pub gas: Gas,
    /// By section: the depth whose gas gives the highest pressure at surface.
    sources: PerSection<Option<Source>>,
}

/// A depth from which gas may come, with the pressure at surface under a column of it. Gauge. [m, Pa]
#[derive(Clone, Copy)]
struct Source {
    point: Point,
    surface: f64,
}

impl Prepared {
    /// Prepares a fit.
    pub fn new(fit: &Fit) -> Prepared {
        let gas = NaturalGas::sweet(fit.well.kick.gas_gravity).resolve(&mut Off);
        Prepared { gas, sources: PerSection::new(fit.well.sections.len()) }
    }
}

/// Notes which gas the figures are for.
pub fn show_gas<R: Recorder>(scene: &Scene, rec: &mut R) {
    if R::ON {
        rec.heading("the gas");
        NaturalGas::sweet(scene.fit().well.kick.gas_gravity).resolve(rec);
    }
}

/// Temperature of the rock at a vertical depth. [K]
fn temperature(well: &Well, vertical_depth: f64) -> f64 {
    well.geotherm.at(vertical_depth, well.elevation + well.water_depth)
}

/// Temperature of the rock at a vertical depth of a scene's well. [K]
pub fn rock_temperature(scene: &Scene, vertical_depth: f64) -> f64 {
    temperature(&scene.fit().well, vertical_depth)
}

/// The annulus of a situation as a gas bubble meets it, from the bottom up; `None` for a hole that climbs towards its end.
pub fn annulus(scene: &Scene) -> Option<Annulus> {
    let mut sections = Vec::with_capacity(scene.annuli().len());
    let riser = scene.fit().riser(scene.situation.section);
    for piece in scene.annuli().iter().filter(|piece| !piece.riser) {
        let end = |depth| (depth, scene.vertical_depth(depth));
        straight(scene, end(piece.top), end(piece.bottom), piece.capacity(), &mut sections);
    }
    // Shut in, the choke line takes the place of the riser.
    if let Some((riser, length)) = riser.zip(scene.fit().well.sea_bed()) {
        let capacity = BoreCapacity { inner_diameter: riser.choke_line }.value();
        sections.push(AnnulusSection { capacity, length, height: length });
    }
    Annulus::new(sections, scene.vertical_depth(scene.situation.hole_depth))
}

/// Parts a stretch, whose ends are measured and vertical depths, into pieces that hardly bow; from the bottom up.
fn straight(scene: &Scene, top: (f64, f64), bottom: (f64, f64), capacity: f64, sections: &mut Vec<AnnulusSection>) {
    let length = bottom.0 - top.0;
    let bows = |share: f64| {
        let line = top.1 + (bottom.1 - top.1) * share;
        (scene.vertical_depth(top.0 + length * share) - line).abs() > BOW
    };
    if length > SHORT && [0.25, 0.5, 0.75].into_iter().any(bows) {
        let middle = 0.5 * (top.0 + bottom.0);
        let middle = (middle, scene.vertical_depth(middle));
        straight(scene, middle, bottom, capacity, sections);
        straight(scene, top, middle, capacity, sections);
        return;
    }
    // Rounding may make an upright piece higher than it is long.
    sections.push(AnnulusSection { capacity, length, height: (bottom.1 - top.1).min(length) });
}

/// Formation pressure of a kick at the bottom: the mud, the back pressure held with pumps off, and the intensity on top.
pub fn formation_pressure<R: Recorder>(scene: &Scene, intensity: f64, rec: &mut R) -> f64 {
    let pressure = rec.take(KickFormationPressure {
        mud_weight: scene.section().mud.weight,
        intensity,
        vertical_depth: scene.vertical_depth(scene.situation.hole_depth),
        gravity: scene.gravity(),
    });
    let back_pressure = scene.situation.back_pressure;
    if back_pressure > 0.0 {
        rec.given("back pressure held with pumps off, on top", back_pressure, Kind::Pressure);
    }
    pressure + back_pressure
}

/// What pressure adds to the still column of mud down to a depth, over mud as heavy as at surface: weak rock bears that much less of a
/// kick. Where heat makes the column the lighter one nothing is taken for it, since a well that is shut in cools. [Pa]
pub fn squeezed(scene: &Scene, point: &Point) -> f64 {
    let heat = scene.prepared_flow().heat.as_ref().filter(|heat| heat.weighs());
    let weight = heat.map_or(1.0, |heat| heat.columns(&scene.situation).weight(Leg::Annulus, point.depth));
    (weight - 1.0).max(0.0) * scene.section().mud.weight * scene.gravity() * point.vertical_depth
}

/// What a depth of open hole bears of mud reckoned as heavy as at surface: its strength less what pressure adds to the column. [Pa]
pub fn strength<R: Recorder>(scene: &Scene, point: &Point, rec: &mut R) -> Option<f64> {
    let (fracture, squeezed) = (point.fracture?, squeezed(scene, point));
    if squeezed > 0.0 {
        rec.given("pressure that it bears", fracture, Kind::Pressure);
        rec.given("less what pressure adds to the column of mud down to it", squeezed, Kind::Pressure);
    }
    Some(fracture - squeezed)
}

/// A depth as a kick meets it: its fracture pressure is the [`strength`] that it has left for mud as heavy as at surface.
pub fn left_for_kick(scene: &Scene, point: &Point) -> Point {
    Point { fracture: strength(scene, point, &mut Off), ..*point }
}

/// Largest shut-in casing pressure that a depth of open hole bears with mud up to surface, by the acceleration of free fall that makes
/// pressures of mud weights; `None` where nobody knows its strength. [Pa]
pub fn maasp<R: Recorder>(scene: &Scene, point: &Point, gravity: f64, rec: &mut R) -> Option<f64> {
    let (pressure, vertical_depth) = (strength(scene, point, rec)?, point.vertical_depth);
    // A pressure of the rock is made a weight by the exact constant, whatever the paper's.
    let shoe_weight = rec.take(EquivalentMudWeight { pressure, vertical_depth, gravity: scene.gravity() });
    Some(rec.take(Maasp { shoe_weight, mud_weight: scene.section().mud.weight, shoe_depth: vertical_depth, gravity }))
}

/// Hands the well with its kick to `read`; `None` for a hole that climbs towards its end.
pub fn with_kick<T>(scene: &Scene, formation_pressure: f64, read: impl FnOnce(&KickWell<'_>) -> T) -> Option<T> {
    with_kick_under(scene, scene.gravity(), formation_pressure, read)
}

/// As [`with_kick`] under another acceleration of free fall, which papers with the trade's hydrostatic constant want. [m/s²]
pub fn with_kick_under<T>(
    scene: &Scene,
    gravity: f64,
    formation_pressure: f64,
    read: impl FnOnce(&KickWell<'_>) -> T,
) -> Option<T> {
    let annulus = scene.kick_annulus()?;
    let well = &scene.fit().well;
    let temperature = |vertical_depth| temperature(well, vertical_depth);
    let law = GasLaw::Real { gas: scene.basis.influx.gas, method: ZMethod::Tabulated, atmosphere: STANDARD_ATMOSPHERE };
    let path = GasPath { annulus, law, temperature: &temperature, gravity };
    Some(read(&KickWell { path, mud_weight: scene.section().mud.weight, formation_pressure }))
}

/// Pressure at surface under a column of gas from a depth, gauge. [Pa]
fn column<R: Recorder>(scene: &Scene, vertical_depth: f64, pressure: f64, rec: &mut R) -> Option<f64> {
    column_to(scene, (vertical_depth, pressure), 0.0, rec)
}

/// Pressure at a vertical depth under a column of gas from a depth with its pressure, gauge. [Pa]
fn column_to<R: Recorder>(scene: &Scene, (vertical_depth, pressure): (f64, f64), to: f64, rec: &mut R) -> Option<f64> {
    let well = &scene.fit().well;
    let temperature = |vertical_depth| temperature(well, vertical_depth);
    let column = GasColumn {
        gas: scene.basis.influx.gas,
        method: ZMethod::Tabulated,
        temperature: &temperature,
        gravity: scene.gravity(),
        steps: STEPS,
    };
    let start = ColumnPoint { vertical_depth, pressure: pressure + STANDARD_ATMOSPHERE };
    Some(column.pressure_at(rec, start, to)? - STANDARD_ATMOSPHERE)
}

/// Mean density of gas from surface down to a vertical depth, with a gauge pressure at surface. [kg/m³]
pub fn gas_density_below<R: Recorder>(scene: &Scene, surface: f64, vertical_depth: f64, rec: &mut R) -> Option<f64> {
    let well = &scene.fit().well;
    let temperature = |vertical_depth| temperature(well, vertical_depth);
    let (gas, gravity) = (scene.basis.influx.gas, scene.gravity());
    let column = GasColumn { gas, method: ZMethod::Tabulated, temperature: &temperature, gravity, steps: STEPS };
    let top = ColumnPoint { vertical_depth: 0.0, pressure: surface + STANDARD_ATMOSPHERE };
    let bottom = column.pressure_at(rec, top, vertical_depth.max(1.0))?;
    Some((bottom - top.pressure) / (gravity * vertical_depth.max(1.0)))
}

/// The highest pressure that may come to surface while a section is drilled, gauge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfacePressure {
    /// The pressure. [Pa]
    pub pressure: f64,
    /// Measured depth of what sets it: the formation or the shoe. [m]
    pub depth: f64,
    /// Whether the shoe breaks before gas from the formation gives more.
    pub shoe_breaks: bool,
    /// At the preventers: the same with preventers at surface; on the sea bed what is inside less the sea outside. [Pa]
    pub at_stack: f64,
    /// Mean density of the gas. [kg/m³]
    pub gas_density: f64,
}

/// Pressure at the preventers under a column of gas from a depth with its pressure, less the sea outside where they stand on its bed;
/// `at_surface` where they do not. [Pa]
fn at_stack<R: Recorder>(scene: &Scene, from: (f64, f64), at_surface: f64, rec: &mut R) -> Option<f64> {
    let Some(bed) = scene.fit().well.sea_bed() else { return Some(at_surface) };
    rec.heading("at the preventers on the sea bed");
    let inside = column_to(scene, from, bed, rec)?;
    rec.given("gas inside", inside, Kind::Pressure);
    let (density, vertical_depth) = (scene.sea_density(), scene.fit().well.water_depth);
    let outside = rec.take(Hydrostatic { density, vertical_depth, gravity: scene.gravity() });
    rec.given("less the sea outside", inside - outside, Kind::Pressure);
    Some(inside - outside)
}

/// Anticipated surface pressure by both limits: gas from the formation to surface, and the shoe breaking under gas. The
/// smaller governs. `None` where the gas leaves the range of its correlation.
pub fn surface_pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<SurfacePressure> {
    let section = scene.situation.section;
    let gravity = scene.gravity();
    let source = (*scene.basis.influx.sources.get(section, || source(scene)))?;
    let vertical_depth = source.point.vertical_depth;
    show_gas(scene, rec);
    if R::ON {
        rec.heading("gas from the formation to surface");
        rec.given("measured depth of the formation", source.point.depth, Kind::Depth);
        rec.given("its pore pressure", source.point.pore, Kind::Pressure);
        column(scene, vertical_depth, source.point.pore, rec);
    }
    let gas_density = (source.point.pore - source.surface) / (gravity * vertical_depth);
    let formation_pressure = source.point.pore;
    let from_formation = rec.take(GasToSurfacePressure { formation_pressure, gas_density, vertical_depth, gravity });
    let by_formation = SurfacePressure {
        pressure: from_formation,
        depth: source.point.depth,
        shoe_breaks: false,
        at_stack: at_stack(scene, (vertical_depth, source.point.pore), from_formation, rec)?,
        gas_density,
    };
    let Some((shoe, fracture)) = shoe_strength(scene) else {
        rec.note(|| "Nobody knows the strength of the shoe, so the formation alone sets the pressure.".to_owned());
        return Some(by_formation);
    };
    rec.heading("the shoe breaking under gas");
    let shoe_depth = scene.vertical_depth(shoe);
    let surface = column(scene, shoe_depth, fracture, rec)?;
    let shoe_weight = rec.take(EquivalentMudWeight { pressure: fracture, vertical_depth: shoe_depth, gravity });
    let gas_density = (fracture - surface) / (gravity * shoe_depth);
    let margin = scene.fit().well.margins.fracture;
    let from_shoe = rec.take(ShoeFractureSurfacePressure { shoe_weight, margin, gas_density, shoe_depth, gravity });
    if from_shoe < from_formation {
        let broken = fracture + margin * gravity * shoe_depth;
        let at_stack = at_stack(scene, (shoe_depth, broken), from_shoe, rec)?;
        return Some(SurfacePressure { pressure: from_shoe, depth: shoe, shoe_breaks: true, at_stack, gas_density });
    }
    Some(by_formation)
}

/// The depth of the section whose gas gives the highest pressure at surface.
fn source(scene: &Scene) -> Option<Source> {
    let section = scene.situation.section;
    let points = scene.prepared_flow().open_hole.above(scene.fit().well.sections[section].bottom);
    let mut highest: Option<Source> = None;
    for point in points {
        // Gas weighs something, so a depth with less pore pressure than the best gives at surface cannot be it.
        if highest.is_some_and(|highest| point.pore <= highest.surface) {
            continue;
        }
        let surface = column(scene, point.vertical_depth, point.pore, &mut Off)?;
        if highest.is_none_or(|highest| surface > highest.surface) {
            highest = Some(Source { point: *point, surface });
        }
    }
    highest
}

/// Measured depth of the last shoe and the most that it may bear: the larger of its test and the rock, since a test may
/// have stopped before leak-off. [m, Pa]
fn shoe_strength(scene: &Scene) -> Option<(f64, f64)> {
    let well = &scene.fit().well;
    let casing = well.casing_above(scene.situation.section)?;
    let vertical_depth = scene.vertical_depth(casing.shoe);
    let column = |density| Hydrostatic { density, vertical_depth, gravity: scene.gravity() }.value();
    let tested = casing.leak_off.map(|test| column(test.weight));
    let rock = well.formation_at(vertical_depth).fracture_at(vertical_depth);
    let fracture = tested.into_iter().chain(rock).reduce(f64::max)?;
    (vertical_depth > 0.0).then_some((casing.shoe, fracture))
}
