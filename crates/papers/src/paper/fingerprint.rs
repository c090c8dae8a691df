//! The fingerprint by which a paper is matched with the files that it came from.

use rigwright_wellfile::Source;
use sha2::{Digest, Sha256};
use std::fmt;
use std::str::FromStr;
use std::sync::Arc;

/// Bytes that are printed: enough that two states of a file never share one by chance.
const BYTES: usize = 6;

/// Where a long word may be broken; no reader sees it.
const SOFT_BREAK: char = '\u{200b}';

/// The first bytes of the SHA-256 of the files, in the order well, rig, survey.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fingerprint([u8; BYTES]);

/// The fingerprint of these files. Only what they say counts, not their names, so a copy has the same one.
pub fn fingerprint(sources: &[Arc<Source>]) -> Fingerprint {
    of_texts(sources.iter().map(|source| source.text.as_str()))
}

/// The fingerprint of one text: a record or a tally that a paper was made from beside the files of the well.
pub fn fingerprint_of(text: &str) -> Fingerprint {
    of_texts(std::iter::once(text))
}

fn of_texts<'a>(texts: impl Iterator<Item = &'a str>) -> Fingerprint {
    let mut hash = Sha256::new();
    for text in texts {
        // The length keeps a move of text from one file to the next from looking the same.
        hash.update((text.len() as u64).to_le_bytes());
        hash.update(text.as_bytes());
    }
    let whole = hash.finalize();
    Fingerprint(std::array::from_fn(|index| whole[index]))
}

impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, pair) in self.0.chunks(2).enumerate() {
            if index > 0 {
                f.write_str("-")?;
            }
            pair.iter().try_for_each(|byte| write!(f, "{byte:02x}"))?;
        }
        Ok(())
    }
}

/// A text that is no fingerprint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a fingerprint is twelve signs from 0 to 9 and a to f, such as 3f0a-91c2-77de")]
pub struct NoFingerprint;

impl FromStr for Fingerprint {
    type Err = NoFingerprint;

    fn from_str(text: &str) -> Result<Fingerprint, NoFingerprint> {
        // People copy it from paper: hyphens, spaces and capitals are theirs to choose; a PDF may hold a break in a long word.
        let digits: Option<Vec<u8>> = text
            .chars()
            .filter(|c| !matches!(*c, '-' | ' ' | SOFT_BREAK))
            .map(|c| c.to_digit(16).and_then(|digit| u8::try_from(digit).ok()))
            .collect();
        let digits = digits.filter(|digits| digits.len() == 2 * BYTES).ok_or(NoFingerprint)?;
        Ok(Fingerprint(std::array::from_fn(|index| digits[2 * index] * 16 + digits[2 * index + 1])))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigwright_wellfile::{Disk, read};

    #[test]
    fn it_follows_every_sign_of_the_files_and_is_read_back_from_paper() {
        let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/");
        let of = |well: &str| fingerprint(&read(&format!("{root}{well}"), None, &Disk).expect("a demo reads").sources);
        let (one, other) = (of("ostrick.toml"), of("tolvane.toml"));
        assert_ne!(one, other);
        assert_eq!(one, of("ostrick.toml"));
        let printed = one.to_string();
        assert_eq!(printed.len(), 14);
        assert_eq!(printed.parse(), Ok(one));
        assert_eq!(printed.replace('-', " ").to_uppercase().parse(), Ok(one));
        let broken = format!("{}\u{200b}{}", &printed[..12], &printed[12..]);
        assert_eq!(broken.parse(), Ok(one), "as a PDF gives it");
        assert_eq!("3f0a-91c2-77d".parse::<Fingerprint>(), Err(NoFingerprint));
        assert_eq!("3f0a-91c2-77dg".parse::<Fingerprint>(), Err(NoFingerprint));
    }

    #[test]
    fn text_that_moves_between_files_changes_it() {
        // SHA-256 of nothing begins e3b0c442 98fc (FIPS 180-4, test vectors of NIST).
        assert_eq!(fingerprint(&[]).to_string(), "e3b0-c442-98fc");
    }
}
