//! What reading could not take: facts with places and no sentences. The checks give them words.

use super::PlaceRef;
use crate::finding::Place;
use crate::unit::Why;

/// One thing in a file that could not be taken as written. Everything else of the file was read all the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slip {
    /// The characters it is about.
    pub place: Place,
    /// What is wrong with them.
    pub fault: Fault,
    /// The entry it spoils, head line included, if it lies in one: nothing else about that entry needs to be said.
    pub entry: Option<Place>,
}

/// What kind of word was not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WordOf {
    /// A key.
    Key,
    /// The kind of a feature, its first key.
    Kind,
    /// A value that must be one of a few words.
    Value,
    /// The name of a feature, letter or check that something points at.
    Name,
}

/// The shape of a piece of YAML.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Nothing at all.
    Nothing,
    /// One value.
    Text,
    /// A list.
    List,
    /// Keys with values.
    Keys,
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// The text breaks a rule of the file format.
    Unreadable(Unreadable),
    /// A word that is not known here.
    UnknownWord {
        /// As written.
        word: String,
        /// What it stands as.
        of: WordOf,
        /// Where it stands, in the trade's words: `the header`, `a relief`, `carries`.
        within: String,
        /// The nearest word that is known here.
        nearest: Option<String>,
        /// Where this word does belong, if it is known elsewhere.
        belongs: Vec<String>,
        /// What is known here, when these are few.
        known: Vec<String>,
    },
    /// A word of the trade that this description does not use so: with two readings it is refused with both, with one it is
    /// answered with where that is said.
    TradeWord {
        /// As written.
        word: String,
        /// What it may mean, each with how it is written here.
        readings: &'static [&'static str],
    },
    /// A key or kind that is written in another way where it stands.
    WrittenElse {
        /// As written.
        word: String,
        /// Where it stands: `a bore`.
        within: &'static str,
        /// How it is written there.
        instead: &'static str,
    },
    /// A size, designation or place that cannot be read.
    BadSize {
        /// The whole value as written.
        text: String,
        /// The characters of it that cannot be read; the whole where no character is to blame.
        piece: String,
        /// Reason.
        why: BadSize,
        /// Where the whole value stands.
        value: Place,
        /// What is wanted here: `a diameter`, `a thread`, `a place`.
        wants: &'static str,
        /// Three forms that would be read.
        forms: [String; 3],
        /// The digits without their gap, the point for the comma: what was most likely meant.
        meant: Option<String>,
        /// For the size of a `dims` entry: its two faces.
        between: Option<Box<(PlaceRef, PlaceRef)>>,
    },
    /// A value of the wrong shape.
    WrongShape {
        /// Key it stands under.
        key: String,
        /// What is wanted, with its article: `a list of features`.
        wants: &'static str,
        /// What is there.
        found: Shape,
        /// How it would be written right.
        example: String,
    },
    /// The same key twice in one mapping, or the same name twice in one part.
    Duplicate {
        /// Key or name.
        word: String,
        /// Whether it is a feature's name.
        name: bool,
        /// Where it stands first.
        first: Place,
    },
    /// A value, or the end of one, that YAML takes for a comment.
    LostToComment {
        /// Key whose value is lost.
        key: String,
        /// The comment as written.
        comment: String,
        /// The value that was meant, with quotes, or `No. 10-32` for a numbered size.
        meant: String,
    },
    /// A key that an entry cannot do without.
    Missing {
        /// Key.
        key: &'static str,
        /// The entry, in the trade's words: `a keyseat`, `the description`.
        within: String,
        /// How it would be written.
        example: String,
    },
    /// A hole's fit code on a shaft, or a shaft's in a bore.
    FitWrongSide {
        /// Code as written.
        code: String,
        /// True when a hole's code stands on a shaft.
        hole_on_shaft: bool,
    },
    /// A file named by the description that is not opened for it.
    Stray {
        /// As written.
        name: String,
        /// Why not.
        why: Stray,
    },
    /// Known to the trade, not worked by this version.
    NotSupported {
        /// The trade's word for it.
        word: String,
    },
}

/// Why a file is not opened on a description's word alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stray {
    /// Its name begins at the root of the machine.
    Root,
    /// Its name begins at somebody's home.
    Home,
    /// Its name has a backslash or the letter of a drive.
    Drive,
    /// Its name leads out of the folders around the description.
    Away,
    /// A link in that place leads out of the folders around the description.
    Link,
    /// Its name does not end as a description's does.
    Ending,
    /// Nothing in it looks like a shop file.
    NoShop,
}

/// Why a value cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BadSize {
    /// As a number or size; the reason.
    Number(Why),
    /// A name where a place is wanted: it has two faces.
    TwoFaces {
        /// The name.
        name: String,
    },
    /// A name that begins with a digit would be read as a place.
    NameDigit,
    /// A unit that does not belong to this kind of value.
    Unit,
    /// A designation the standard does not have in this form; what is wrong, in a few words.
    Designation(String),
    /// Limits that do not belong here.
    LimitsHere,
    /// A fit code the tables do not have for this size.
    FitUnknown {
        /// Code.
        code: String,
    },
    /// Not of the form wanted.
    Form,
}

/// Rules of the file format that were broken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unreadable {
    /// Nothing is in the file.
    Empty,
    /// Not UTF-8 at this byte.
    NotUtf8 {
        /// The first byte that is not.
        byte: usize,
    },
    /// More bytes than are read.
    TooLarge {
        /// Bytes that are read.
        most: usize,
    },
    /// A character that has no place in a description: control characters, U+0085, U+2028, U+2029.
    Character {
        /// The character.
        character: char,
    },
    /// Indented with a tab.
    Tab,
    /// No space behind the colon of a key.
    NoSpaceAfterColon {
        /// Key.
        key: String,
        /// Value glued to it.
        value: String,
    },
    /// No space behind the dash of an entry.
    NoSpaceAfterDash {
        /// The line behind the dash.
        rest: String,
    },
    /// A value with a colon and a space in it.
    ColonInValue {
        /// The value.
        value: String,
    },
    /// A value that begins with a sign YAML keeps for itself.
    StartsWith {
        /// The sign.
        sign: char,
    },
    /// A bracket or quote that is not closed.
    NotClosed {
        /// Bracket or quote.
        sign: char,
    },
    /// A line of words without a colon where a key and its value are wanted.
    NoColon {
        /// The line.
        text: String,
    },
    /// A `#` inside brackets: the rest of the line is lost, closing bracket and all.
    CommentInBrackets {
        /// The comment as written.
        comment: String,
    },
    /// Indented unlike its neighbours.
    Indent,
    /// A merge key `<<`.
    MergeKey,
    /// A second document.
    SecondDocument,
    /// A tag (`!…`).
    Tag,
    /// A key that is a list or a mapping.
    KeyNotText,
    /// An alias to something that contains it, or to nothing.
    Alias,
    /// Nested deeper than is read.
    TooDeep,
    /// More of these than are read, or told.
    TooMany {
        /// `features`, `faults`.
        what: &'static str,
        /// How many are.
        most: usize,
    },
    /// The two readers of the text do not see the same.
    ReadersDisagree {
        /// What the first one sees.
        one: String,
        /// What the other one sees.
        other: String,
    },
    /// Anything else; what the YAML reader says.
    Syntax {
        /// Its words.
        said: String,
    },
}
