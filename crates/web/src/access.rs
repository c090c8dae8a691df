//! Who may read and write: everybody at this machine's own address, and elsewhere those who know the access phrase.

use argon2::{Algorithm, Argon2, Params, Version};
use std::collections::VecDeque;
use std::io;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};
use subtle::ConstantTimeEq;

/// A phrase shorter than this is refused. [letter]
pub const SHORTEST_PHRASE: usize = 12;
/// Tries to enter within [`WHILE`] before all further ones are refused. Counted for all callers together: an address of
/// the network is easily had, and a crew knows its phrase.
const TRIES: usize = 10;
const WHILE: Duration = Duration::from_secs(60);
/// How many browsers may be let in at once; the oldest must enter again.
const MOST_SESSIONS: usize = 100;
const SESSION_LASTS: Duration = Duration::from_secs(12 * 3600);

/// A secret of 32 bytes, as text.
#[derive(Clone)]
pub(crate) struct Secret(String);

impl Secret {
    pub(crate) fn new() -> io::Result<Secret> {
        let mut bytes = [0; 32];
        getrandom::fill(&mut bytes).map_err(io::Error::other)?;
        Ok(Secret(bytes.iter().map(|byte| format!("{byte:02x}")).collect()))
    }

    /// Whether this text is the secret; takes as long for every text of its length.
    pub(crate) fn is(&self, text: &str) -> bool {
        self.0.as_bytes().ct_eq(text.as_bytes()).into()
    }

    pub(crate) fn text(&self) -> &str {
        &self.0
    }
}

/// The access phrase, as a hash that is slow to make, and who has entered.
pub(crate) struct Access {
    salt: [u8; 16],
    hash: [u8; 32],
    sessions: Mutex<VecDeque<(Secret, Instant)>>,
    tries: Mutex<VecDeque<Instant>>,
}

/// What became of a try to enter.
pub(crate) enum Entry {
    /// Let in, with this for a cookie.
    In(Secret),
    /// Not the phrase.
    Wrong,
    /// Too many tries; wait.
    Wait,
}

fn hash(phrase: &str, salt: &[u8]) -> io::Result<[u8; 32]> {
    let mut hash = [0; 32];
    let argon = Argon2::new(Algorithm::Argon2id, Version::V0x13, Params::default());
    argon.hash_password_into(phrase.as_bytes(), salt, &mut hash).map_err(|error| io::Error::other(error.to_string()))?;
    Ok(hash)
}

impl Access {
    pub(crate) fn new(phrase: &str) -> io::Result<Access> {
        if phrase.chars().count() < SHORTEST_PHRASE {
            return Err(io::Error::other(format!("the access phrase needs at least {SHORTEST_PHRASE} letters")));
        }
        let mut salt = [0; 16];
        getrandom::fill(&mut salt).map_err(io::Error::other)?;
        Ok(Access { hash: hash(phrase, &salt)?, salt, sessions: Mutex::default(), tries: Mutex::default() })
    }

    /// Tries a phrase.
    pub(crate) fn enter(&self, phrase: &str, now: Instant) -> io::Result<Entry> {
        {
            let mut tries = self.tries.lock().unwrap_or_else(PoisonError::into_inner);
            tries.retain(|then| now.saturating_duration_since(*then) < WHILE);
            if tries.len() >= TRIES {
                return Ok(Entry::Wait);
            }
            tries.push_back(now);
        }
        if !bool::from(hash(phrase, &self.salt)?.ct_eq(&self.hash)) {
            return Ok(Entry::Wrong);
        }
        let secret = Secret::new()?;
        let mut sessions = self.sessions.lock().unwrap_or_else(PoisonError::into_inner);
        sessions.truncate(MOST_SESSIONS - 1);
        sessions.push_front((secret.clone(), now));
        Ok(Entry::In(secret))
    }

    /// Whether a cookie belongs to somebody who has entered.
    pub(crate) fn knows(&self, cookie: &str, now: Instant) -> bool {
        let mut sessions = self.sessions.lock().unwrap_or_else(PoisonError::into_inner);
        sessions.retain(|(_, since)| now.saturating_duration_since(*since) < SESSION_LASTS);
        sessions.iter().any(|(secret, _)| secret.is(cookie))
    }

    /// Forgets everybody.
    pub(crate) fn leave(&self, cookie: &str) {
        let mut sessions = self.sessions.lock().unwrap_or_else(PoisonError::into_inner);
        sessions.retain(|(secret, _)| !secret.is(cookie));
    }
}

/// A phrase nobody can guess, for a server that was given none.
///
/// # Errors
/// When the system has no random numbers.
pub fn new_phrase() -> io::Result<String> {
    // No letters or digits that look alike; 20 of 30 are 98 bits.
    const SIGNS: &[u8; 30] = b"abcdefghijkmnpqrstuvwxyz345679";
    let mut phrase = String::new();
    while phrase.len() < 23 {
        let mut byte = [0; 1];
        getrandom::fill(&mut byte).map_err(io::Error::other)?;
        if matches!(phrase.len(), 5 | 11 | 17) {
            phrase.push('-');
        }
        // 240 is eight times 30: every sign is as likely as any other.
        if byte[0] < 240 {
            phrase.push(char::from(SIGNS[usize::from(byte[0]) % SIGNS.len()]));
        }
    }
    Ok(phrase)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_phrase_lets_in_and_tries_are_counted() {
        let access = Access::new("a phrase of the crew").expect("long enough");
        let start = Instant::now();
        let Ok(Entry::In(secret)) = access.enter("a phrase of the crew", start) else { panic!("the phrase lets in") };
        assert!(access.knows(secret.text(), start));
        assert!(!access.knows("", start) && !access.knows(&secret.text()[1..], start));
        assert!(!access.knows(secret.text(), start + SESSION_LASTS), "a session ends");
        for _ in 1..TRIES {
            assert!(matches!(access.enter("a phrase of the crem", start), Ok(Entry::Wrong)));
        }
        assert!(matches!(access.enter("a phrase of the crew", start), Ok(Entry::Wait)));
        assert!(matches!(access.enter("a phrase of the crew", start + WHILE), Ok(Entry::In(_))));
    }

    #[test]
    fn a_short_phrase_is_refused_and_ours_is_not() {
        assert!(Access::new("short").is_err());
        let (one, other) = (new_phrase().expect("random numbers"), new_phrase().expect("random numbers"));
        assert!(one.len() >= 23 && one != other, "{one} {other}");
    }
}
