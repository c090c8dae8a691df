//! What the air of the site leaves of the sets' rating.

use crate::Scene;
use rigwright_physics::power::site::{Ambient, Aspiration, site_power_ratio};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::Fit;

/// Mechanical efficiency of the engines by which ISO 3046-1 derates where the maker gives none. [-]
const MECHANICAL_EFFICIENCY: f64 = 0.8;

/// Continuous electric power of one set on this site, or the entries that miss for it: worked out once a fit, unless its working is
/// wanted. [W]
pub(super) fn rating<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<f64, Vec<&'static str>> {
    if R::ON { on_site(scene.fit(), rec) } else { scene.basis.site_rating.get(|| on_site(scene.fit(), &mut Off)).clone() }
}

fn on_site<R: Recorder>(fit: &Fit, rec: &mut R) -> Result<f64, Vec<&'static str>> {
    let sets = &fit.rig.sets;
    rec.given("continuous rating of a set", sets.rating, Kind::Power);
    let Some(aspiration) = sets.aspiration else { return Ok(sets.rating) };
    let site = &fit.well.site;
    // Only engines that smoke at their limit lose power to humidity.
    let humidity = if aspiration == Aspiration::Natural { site.humidity } else { Some(Ambient::REFERENCE.relative_humidity) };
    let (Some(altitude), Some(air_temperature), Some(humidity)) = (site.altitude, site.air_temperature, humidity) else {
        let given = [
            (site.altitude.is_some(), "site.altitude"),
            (site.air_temperature.is_some(), "site.air_temperature"),
            (humidity.is_some(), "site.humidity"),
        ];
        return Err(given.into_iter().filter(|(given, _)| !given).map(|(_, entry)| entry).collect());
    };
    rec.heading("what the air of the site leaves of the rating");
    let here = Ambient::at_elevation(altitude, air_temperature, humidity, rec);
    let ratio = site_power_ratio(aspiration, &Ambient::REFERENCE, &here, MECHANICAL_EFFICIENCY, rec);
    if ratio > 1.0 {
        rec.note(|| "Better air than that of the rating earns nothing: the maker would have to say so.".to_owned());
    }
    let rating = sets.rating * ratio.clamp(0.0, 1.0);
    rec.given("rating of a set on this site", rating, Kind::Power);
    Ok(rating)
}
