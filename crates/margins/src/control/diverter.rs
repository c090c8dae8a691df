//! Shallow gas that is diverted: what stands at the wellhead while it flows through the line, against the diverter's rating and the
//! shoe above the gas. Steady flow after the mud has been blown out; how long the line lasts is not told.

use super::ratings::rated;
use super::separator::{GasPast, HEAT_RATIO, ideal_density};
use crate::fields::influx::{rock_temperature, show_gas};
use crate::fields::open_hole;
use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::control::diverter::{FlowingGasColumn, LineResistance, OpenLine};
use rigwright_physics::control::separator::GasMassRate;
use rigwright_physics::{Kind, Off, Recorder, STANDARD_ATMOSPHERE, Working};
use std::f64::consts::FRAC_PI_4;

pub(super) const QUESTIONS: &[Question] = &[Question {
    slug: "control/diverter",
    asks: "Does the diverter let shallow gas out with less pressure than its rating and the shoe above the gas bear?",
    title: "diverter",
    kind: Kind::Pressure,
    scope: Scope::Section,
    knobs: &["diverter line"],
    assumes: &[
        "steady dry gas through one open line once the mud is out; water, sand and the first rush of mud raise the pressure",
        "adiabatic flow of an ideal gas, ratio of specific heats 1.3, as warm as the rock at the end of the section; the end of the line may be choked",
        "annulus: gas of one temperature past walls as rough as the line, tool joints left out",
        "a diverter holds nothing: it buys time to get people away. Bends erode first: lines as wide, straight and few as can be, anchored, one for each wind",
        "the line opens before the packer closes, on one control, and cannot be shut on a closed packer; the rules of the authority come first",
    ],
    ask: diverter::<Off>,
    show: diverter::<Working>,
}];

/// What the files say of gas and line. [SI]
struct Given {
    rate: f64,
    /// Measured depth of the shoe above the gas.
    shoe: f64,
    rating: f64,
    line_inside: f64,
    line_length: f64,
    line_fittings: f64,
    line_roughness: f64,
}

/// The entries of a section that is drilled on the diverter, or the answer in their place.
fn given(scene: &Scene) -> Result<Given, Answer> {
    let (fit, index) = (scene.fit(), scene.situation.section);
    let (above, gas) = (fit.well.casing_above(index), fit.well.sections[index].shallow_gas);
    if fit.open_to_sea(index).is_some() {
        return Err(Answer::DoesNotArise("returns go to the sea bed: shallow gas goes into the water, nothing is diverted"));
    }
    if above.is_some() && gas.is_none() {
        return Err(Answer::DoesNotArise("casing and preventers: a kick is shut in, not diverted"));
    }
    let (gas, diverter) = (gas.unwrap_or_default(), fit.rig.diverter.unwrap_or_default());
    let wanted = [
        (gas.rate, "section[].shallow_gas.rate"),
        (above.map(|casing| casing.shoe).or(gas.conductor), "section[].shallow_gas.conductor"),
        (diverter.rating, "rig.diverter.rating"),
        (diverter.line_inside, "rig.diverter.line_inside"),
        (diverter.line_length, "rig.diverter.line_length"),
        (diverter.line_fittings, "rig.diverter.line_fittings"),
    ];
    let [Some(rate), Some(shoe), Some(rating), Some(line_inside), Some(line_length), Some(line_fittings)] =
        wanted.map(|(value, _)| value)
    else {
        return Err(Answer::Missing(wanted.iter().filter(|(value, _)| value.is_none()).map(|(_, entry)| *entry).collect()));
    };
    let line_roughness = diverter.line_roughness;
    Ok(Given { rate, shoe, rating, line_inside, line_length, line_fittings, line_roughness })
}

/// Gas on its way. [SI]
#[derive(Clone, Copy)]
struct Gas {
    mass_rate: f64,
    molar_mass: f64,
    temperature: f64,
}

/// Absolute pressure at the wellhead, gas at rest there. [Pa]
fn at_wellhead<R: Recorder>(given: &Given, gas: Gas, rec: &mut R) -> f64 {
    let Gas { mass_rate, molar_mass, temperature } = gas;
    let (inner_diameter, roughness) = (given.line_inside, given.line_roughness);
    rec.heading("the line, counted back from its end");
    let area = FRAC_PI_4 * inner_diameter * inner_diameter;
    let density = ideal_density(molar_mass, temperature);
    let friction_factor = GasPast { mass_rate, density, area, width: inner_diameter, roughness }.friction_factor(rec);
    let resistance =
        rec.take(LineResistance { friction_factor, length: given.line_length, inner_diameter, fittings: given.line_fittings });
    let outside = STANDARD_ATMOSPHERE;
    let line = OpenLine { resistance, inner_diameter, outside, temperature, molar_mass, heat_ratio: HEAT_RATIO };
    let Some(out) = line.outflow(rec, mass_rate) else {
        rec.note(|| "The gas is so slow that the line takes no pressure that a gauge would show.".to_owned());
        return outside;
    };
    rec.given("pressure at the end of the line, absolute", out.end, Kind::AbsolutePressure);
    rec.given("speed of the gas there", out.speed, Kind::JetSpeed);
    rec.note(|| {
        if out.leaves < 1.0 {
            "The gas leaves slower than sound, at the pressure of the air.".to_owned()
        } else {
            "The end is choked: gas leaves as fast as sound, and the pressure grows in proportion to the rate.".to_owned()
        }
    });
    out.before
}

/// Absolute pressure at the shoe with gas flowing past the string up to the wellhead. [Pa]
fn at_shoe<R: Recorder>(scene: &Scene, given: &Given, gas: Gas, at_wellhead: f64, rec: &mut R) -> f64 {
    let Gas { mass_rate, molar_mass, temperature } = gas;
    rec.heading("the annulus from the wellhead down to the shoe");
    let mut pressure = at_wellhead;
    for piece in scene.annuli().iter().filter(|piece| piece.top < given.shoe) {
        let bottom = piece.bottom.min(given.shoe);
        let height = scene.vertical_depth(bottom) - scene.vertical_depth(piece.top);
        let (area, width) = (piece.capacity(), piece.hole_diameter - piece.pipe_diameter);
        if height <= 0.001 || area <= 0.0 {
            continue;
        }
        rec.stretch(|| "annulus".to_owned(), piece.top, bottom);
        let density = ideal_density(molar_mass, temperature);
        let past = GasPast { mass_rate, density, area, width, roughness: given.line_roughness };
        let friction_factor = past.friction_factor(rec);
        pressure = rec.take(FlowingGasColumn {
            top_pressure: pressure,
            mass_rate,
            area,
            width,
            friction_factor,
            length: bottom - piece.top,
            height,
            temperature,
            molar_mass,
            factor: 1.0,
            gravity: scene.gravity(),
        });
    }
    pressure
}

fn diverter<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let given = match given(scene) {
        Ok(given) => given,
        Err(answer) => return answer,
    };
    let rock = open_hole::only(scene, given.shoe);
    let tested = rock.iter().find(|point| point.tested);
    let rock: Option<Vec<f64>> =
        tested.map_or_else(|| rock.iter().map(|point| point.fracture).collect(), |at| Some(vec![at.fracture?]));
    let Some(strength) = rock.and_then(|all| all.into_iter().reduce(f64::min)) else {
        return Answer::Missing(vec!["formation[].fracture"]);
    };
    show_gas(scene, rec);
    rec.heading("the gas to be diverted");
    let molar_mass = scene.basis.influx.gas.molar_mass;
    let temperature = rock_temperature(scene, scene.vertical_depth(scene.section().bottom));
    rec.given("temperature of the rock at the end of the section", temperature, Kind::Temperature);
    let gas = Gas { mass_rate: rec.take(GasMassRate { gas_rate: given.rate, molar_mass }), molar_mass, temperature };
    let wellhead = at_wellhead(&given, gas, rec);
    let demand = wellhead - STANDARD_ATMOSPHERE;
    rec.given("pressure at the wellhead, gauge", demand, Kind::Pressure);
    let shoe = at_shoe(scene, &given, gas, wellhead, rec) - STANDARD_ATMOSPHERE;
    rec.heading("what bears it");
    rec.given("rating of the diverter", given.rating, Kind::Pressure);
    rec.given("pressure that the shoe bears", strength, Kind::Pressure);
    rec.given("less what gas adds on the way from there, weight and friction", shoe - demand, Kind::Pressure);
    let depth = scene.vertical_depth(given.shoe);
    let at_the_shoe = Limit {
        capacity: strength - (shoe - demand),
        // So shallow a margin of mud weight is hardly a pressure: a share of the strength, where that is more.
        reserve: (fit.well.margins.fracture * scene.gravity() * depth).max(fit.well.reserves.pressure * strength),
        name: "strength of the shoe above the gas",
        source: if tested.is_some() { "leak-off or integrity test of the shoe" } else { "formations of the well file" },
    };
    let judge = |limit: Limit, place: Place| Judged { demand, limit, place, zero: 0.0 };
    let limits =
        [judge(rated(fit, given.rating, "rating of the diverter"), Place::Surface), judge(at_the_shoe, Place::Depth(given.shoe))];
    worst(limits).map_or(super::DIVERTED, Answer::Judged)
}
