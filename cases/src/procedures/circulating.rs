//! Examples of the circulating system.

mod bit;
mod flow;
mod hole;
mod mud;

use super::Procedure;

pub(super) const PROCEDURES: &[Procedure] = &[
    procedure("gradient-column", mud::gradient_column),
    procedure("fill-loss", mud::fill_loss),
    procedure("hot-water-column", mud::hot_water_column),
    procedure("rheology-by-hand", mud::rheology_by_hand),
    procedure("herschel-bulkley-fit", mud::herschel_bulkley_fit),
    procedure("laminar-flow", flow::laminar_flow),
    procedure("concentric-annulus", flow::concentric_annulus),
    procedure("wall-stress-error", flow::wall_stress_error),
    procedure("friction", flow::friction_of_method),
    procedure("circuit", flow::circuit),
    procedure("power-law-field", flow::power_law_field),
    procedure("bit-kinetic-share", bit::kinetic_share),
    procedure("nozzles", bit::nozzles),
    procedure("nozzle-optimum", bit::nozzle_optimum),
    procedure("optimum-split", bit::optimum_split),
    procedure("pump-speed-for-flow", bit::pump_speed_for_flow),
    procedure("cuttings-rise", hole::cuttings_rise),
    procedure("inclined-cleaning", hole::inclined_cleaning),
    procedure("surge", hole::surge),
];

const fn procedure(name: &'static str, run: fn(&crate::Given) -> super::Outcome) -> Procedure {
    Procedure { name, system: "circulating", run }
}
