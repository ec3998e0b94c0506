//! Words of a closed list, as a person chooses one of them.
//!
//! One macro, so that the table of fields and the type never differ; which words there are stands
//! beside each sheet.

/// Defines a choice whose words are stored and shown as they stand here.
macro_rules! choice {
    (
        $(#[$doc:meta])*
        $name:ident { $( $(#[$of:meta])* $variant:ident = $word:literal ),+ $(,)? }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $( $(#[$of])* $variant ),+ }

        impl $name {
            /// All of them, in the order they are offered.
            pub const ALL: &'static [Self] = &[ $( Self::$variant ),+ ];
            /// Their words, as stored.
            pub const WORDS: &'static [&'static str] = &[ $( $word ),+ ];

            /// The word, as stored.
            pub fn word(self) -> &'static str {
                match self { $( Self::$variant => $word ),+ }
            }

            /// The one a stored word means; none for a word this program does not know.
            pub fn of_word(word: &str) -> Option<Self> {
                match word {
                    $( $word => Some(Self::$variant), )+
                    _ => None,
                }
            }
        }
    };
}
