//! Examples of the circulating system.

mod bit;
mod density;
mod flow;
mod heat;
mod hole;
mod mud;
mod solids;

use super::Procedure;

pub(super) const PROCEDURES: &[Procedure] = &[
    procedure("gradient-column", mud::gradient_column),
    procedure("fill-loss", mud::fill_loss),
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
    procedure("moving-wall-slot", hole::moving_wall),
    procedure("surface-brine", density::surface_brine),
    procedure("mud-density", density::mud_density),
    procedure("warm-column", density::warm_column),
    procedure("salt-mud-solids", solids::salt_mud_solids),
    procedure("cuttings", solids::cuttings),
    procedure("steady-circulation", heat::steady_circulation),
    procedure("circulating-march", heat::circulating_march),
    procedure("warmed-rock", heat::warmed_rock),
    procedure("film", heat::film),
];

const fn procedure(name: &'static str, run: fn(&crate::Given) -> super::Outcome) -> Procedure {
    Procedure { name, system: "circulating", run }
}
