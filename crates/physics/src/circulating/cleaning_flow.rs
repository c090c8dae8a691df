//! The annular velocity that cleans a hole of any inclination, as a root where the viscosity depends on it.

use super::cleaning::*;
use super::generalised::BinghamApparentViscosity;
use super::passage::{AnnularCapacity, gap};
use super::slip::{Cutting, Rise, SlipMethod, slip_velocity};
use super::viscometer::MudRheology;
use crate::{Formula, Kind, Off, Recorder, Root, numerics};

/// What is drilled and carried, in one annulus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cleaning {
    /// Diameter of the hole or casing around the pipe. [m]
    pub hole_diameter: f64,
    /// Outside diameter of the pipe. [m]
    pub pipe_diameter: f64,
    /// Mud weight. [kg/m³]
    pub density: f64,
    /// The cuttings.
    pub cutting: Cutting,
    /// Diameter of the bit that makes them. [m]
    pub bit_diameter: f64,
    /// Rate of penetration. [m/s]
    pub penetration_rate: f64,
}

/// What counts as clean near the vertical.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CleanWhen {
    /// The transport ratio is at least this. [-]
    TransportRatio(f64),
    /// The share of cuttings in the annulus is at most this. [-]
    Concentration(f64),
}

/// Fastest annular velocity that is looked at. [m/s]
const FASTEST: f64 = 100.0;

/// Annular velocity that cleans the hole at an inclination. [m/s]
///
/// Near the vertical by the slip method and the wish, from 55 degrees by Larsen, in a line between. `None` where no velocity does.
pub fn cleaning_velocity<R: Recorder>(
    mud: &MudRheology,
    cleaning: &Cleaning,
    wish: (SlipMethod, CleanWhen),
    inclination: f64,
    rec: &mut R,
) -> Option<f64> {
    if inclination >= LARSEN_FROM {
        return larsen_velocity(mud, cleaning, inclination, rec);
    }
    let upright = vertical_velocity(mud, cleaning, wish, rec)?;
    if inclination <= 0.0 {
        return Some(upright);
    }
    let inclined = larsen_velocity(mud, cleaning, LARSEN_FROM, rec)?;
    rec.given("inclination", inclination, Kind::Angle);
    rec.note(|| "interpolated between the vertical and 55°".to_owned());
    Some(upright + (inclined - upright) * inclination / LARSEN_FROM)
}

/// Annular velocity that cleans a vertical hole. [m/s]
///
/// The slip grows with the velocity more slowly than the velocity itself, since the mud thins: the excess of what is wanted over
/// what there is crosses nought once. When even a creeping mud carries, the velocity is nought.
fn vertical_velocity<R: Recorder>(
    mud: &MudRheology,
    cleaning: &Cleaning,
    (method, wish): (SlipMethod, CleanWhen),
    rec: &mut R,
) -> Option<f64> {
    let Cleaning { hole_diameter, pipe_diameter, density, cutting, bit_diameter, penetration_rate } = *cleaning;
    let width = gap(hole_diameter, pipe_diameter);
    let rise = |velocity: f64| Rise { annular_velocity: velocity, width, density };
    let slip = |velocity: f64| slip_velocity(method, mud, &cutting, &rise(velocity), &mut Off);
    let (share, net) = match wish {
        CleanWhen::TransportRatio(ratio) => (1.0 - ratio, 0.0),
        CleanWhen::Concentration(limit) => {
            let cuttings_rate = rec.take(CuttingsRate { hole_diameter: bit_diameter, penetration_rate });
            let annular_area = rec.take(AnnularCapacity { hole_diameter, pipe_diameter });
            (1.0, rec.take(TransportVelocity { cuttings_rate, cuttings_concentration: limit, annular_area }))
        }
    };
    let excess = |velocity: f64| share * velocity - net - slip(velocity);
    let creeping = 1e-6;
    let least = excess(creeping);
    if least >= 0.0 {
        return Some(0.0);
    }
    let velocity = numerics::root_of_straight(excess, [(creeping, least), (FASTEST, excess(FASTEST))])?;
    if R::ON {
        rec.root(Root {
            equation: "velocity left after the slip = velocity wanted for the cuttings",
            sign: "va",
            meaning: "annular velocity that cleans",
            kind: Kind::Speed,
            value: velocity,
            residual: excess(velocity),
            residual_kind: Kind::Speed,
        });
        let slip_velocity = slip_velocity(method, mud, &cutting, &rise(velocity), rec);
        rec.take(TransportRatio { slip_velocity, annular_velocity: velocity });
    }
    Some(velocity)
}

/// Annular velocity that keeps a hole of 55 to 90 degrees free of a bed, by Larsen, Pilehvari and Azar. [m/s]
///
/// The apparent viscosity falls as the velocity rises, so that velocity less what is wanted rises: one root, between the cuttings
/// velocity and the velocity wanted there.
pub fn larsen_velocity<R: Recorder>(mud: &MudRheology, cleaning: &Cleaning, inclination: f64, rec: &mut R) -> Option<f64> {
    let Cleaning { hole_diameter, pipe_diameter, density, cutting, penetration_rate, .. } = *cleaning;
    if penetration_rate <= 0.0 {
        return Some(0.0);
    }
    let width = gap(hole_diameter, pipe_diameter);
    let cuttings_velocity = rec.take(LarsenCutVelocity { penetration_rate, hole_diameter, pipe_diameter });
    let angle_factor = rec.take(LarsenAngleFactor { inclination });
    let size_factor = rec.take(LarsenSizeFactor { cutting_size: cutting.size }).max(0.0);
    let weight_factor = rec.take(LarsenWeightFactor { density }).max(0.0);
    let (plastic_viscosity, yield_point) = (mud.plastic_viscosity, mud.yield_point);
    let viscosity = |velocity: f64| BinghamApparentViscosity { plastic_viscosity, yield_point, width, velocity, geometry: 1.0 };
    let wanted =
        |equivalent_slip: f64| LarsenVelocity { cuttings_velocity, equivalent_slip, angle_factor, size_factor, weight_factor };
    let slip = |velocity: f64| LarsenEquivalentSlip { viscosity: viscosity(velocity).value() };
    let excess = |velocity: f64| velocity - wanted(slip(velocity).value()).value();
    let most = wanted(slip(cuttings_velocity).value()).value();
    let velocity = numerics::root(excess, cuttings_velocity, most)?;
    if R::ON {
        rec.root(Root {
            equation: "critical velocity at the viscosity of that velocity = that velocity",
            sign: "v",
            meaning: "critical annular velocity",
            kind: Kind::Speed,
            value: velocity,
            residual: excess(velocity),
            residual_kind: Kind::Speed,
        });
        rec.take(viscosity(velocity));
        let equivalent_slip = rec.take(slip(velocity));
        rec.take(wanted(equivalent_slip));
    }
    Some(velocity)
}
