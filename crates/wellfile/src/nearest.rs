//! The nearest name, for hints.

/// The name among `names` that is nearest to `word`, when one is near enough to be meant: a third of the
/// letters may differ, a swap of neighbours counts once, and case, hyphens and spaces do not count.
pub fn nearest<'a>(word: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // A hint for a page of text would be no hint, and the distance grows with the product of the lengths.
    if word.len() > 64 {
        return None;
    }
    let wanted = plain(word);
    names
        .into_iter()
        .map(|name| (strsim::osa_distance(&wanted, &plain(name)), name))
        .filter(|(distance, name)| distance * 3 <= wanted.chars().count().max(name.chars().count()))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, name)| name)
}

fn plain(name: &str) -> String {
    name.chars().filter(|c| !matches!(c, '-' | '_' | ' ')).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_a_slip_of_the_finger_finds_its_word() {
        let names = ["weight", "kind", "readings", "temperature"];
        assert_eq!(nearest("wieght", names), Some("weight"));
        assert_eq!(nearest("temprature", names), Some("temperature"));
        assert_eq!(nearest("Kind", names), Some("kind"));
        assert_eq!(nearest("porosity", names), None);
        assert_eq!(nearest("J55", ["H-40", "J-55", "K-55"]), Some("J-55"));
        assert_eq!(nearest("", names), None);
    }
}
