//! The language a sheet speaks. Each message stands once, its languages side by side in [`told!`](crate::told) or
//! [`tell!`](crate::tell): one that lacks a language does not compile.
//!
//! A language is chosen for a stretch of work on one thread, [`speaking`]; everything else speaks English. Scripts read English:
//! only `sheet` chooses. What is not translated is in `tests/language.rs`.

use std::cell::Cell;

/// Languages of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// German.
    German,
}

impl Language {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// ISO 639-1.
    pub const fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// The language of a code, or none.
    pub fn of(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.code() == code)
    }
}

thread_local! {
    static SPOKEN: Cell<Language> = const { Cell::new(Language::English) };
}

/// The language spoken now on this thread.
pub fn now() -> Language {
    SPOKEN.get()
}

/// Works in this language; the one before is spoken again afterwards, also after a panic.
pub fn speaking<T>(language: Language, work: impl FnOnce() -> T) -> T {
    struct Back(Language);
    impl Drop for Back {
        fn drop(&mut self) {
            SPOKEN.set(self.0);
        }
    }
    let _back = Back(SPOKEN.replace(language));
    work()
}

/// A fixed text in every language.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Message {
    /// English.
    pub english: &'static str,
    /// German.
    pub german: &'static str,
}

impl Message {
    /// The text in the language spoken now.
    pub fn say(self) -> &'static str {
        match now() {
            Language::English => self.english,
            Language::German => self.german,
        }
    }
}

/// A fixed text, English then German.
#[macro_export]
macro_rules! told {
    ($english:literal, $german:literal $(,)?) => {
        match $crate::language::now() {
            $crate::language::Language::English => $english,
            $crate::language::Language::German => $german,
        }
    };
}

/// A text with places for what differs, English then German; both are filled in alike.
#[macro_export]
macro_rules! tell {
    ($english:literal, $german:literal $(, $with:expr)* $(,)?) => {
        match $crate::language::now() {
            $crate::language::Language::English => format!($english $(, $with)*),
            $crate::language::Language::German => format!($german $(, $with)*),
        }
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_language_is_spoken_for_a_while() {
        let said = || tell!("{} parts", "{} Teile", 3);
        assert_eq!((now(), said().as_str()), (Language::English, "3 parts"));
        assert_eq!(speaking(Language::German, said), "3 Teile");
        assert_eq!(told!("stop", "halt"), "stop");
        let _ = std::panic::catch_unwind(|| speaking(Language::German, || panic!("for the test")));
        assert_eq!(now(), Language::English);
    }
}
