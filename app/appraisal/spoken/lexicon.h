// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/vocabulary.h"

#include <tl/expected.hpp>

#include <QByteArray>
#include <QString>

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

// The words in which one language speaks of cars, read from assets/lexicon, described by
// db/schema/lexicon.schema.json. Ids of places, conditions and remedies are the vocabulary's.
namespace ramplight::spoken {

/// A word of the lexicon; 0 is every other word.
using WordId = std::uint32_t;

/// Sides as they are said; which of them is left depends on the traffic.
enum class SideWord { Left, Right, Near, Off, Driver, Passenger, This, Other };
enum class Amount { Both, All, Every, Rest, Other };
/// Of an amount: nothing of the same naming follows behind it ("the pair of them").
constexpr int amountAlone = 3;

/// What is neither a place nor a defect but steers how they are meant.
enum class Cue {
    Sound,      ///< in good order
    Tidy,       ///< the same, said of an inside
    Working,    ///< the same, said of what moves or shows
    Operate,    ///< asked of what moves
    Negation,   ///< no, not, without
    None,       ///< "none" that stands behind
    Retraction, ///< it was nothing
    Correction, ///< what follows replaces what was said
    Same,       ///< as the one before
    Another,    ///< one more of it
    Except,     ///< all but
    TwoDoor,    ///< the car has doors in front only
    Van,        ///< its back doors are its tailgate
    Electric,   ///< the car drives on a battery
    Where,      ///< an aside begins
    Elsewhere,  ///< another car is spoken of up to the stop
    Me,         ///< of the speaker, not the car
    Supposed,   ///< if, might, thought
    History,    ///< it was so, or was put right before
    Equipment,  ///< what the car has
    Question,   ///< is there, how is
    Any,        ///< any dents
    Yes,
    No,
    Normal, ///< what its age explains
    From,   ///< where a noise comes from, or only where something begins
    On,     ///< the place follows
    Beside, ///< a landmark follows that is not meant itself
    But,
    And,
    Or,
    New,  ///< a new one of what follows
    So,   ///< what follows is drawn from what was said
    Want, ///< work follows: needs, wants, get it
    Them, ///< several of what was said
    It,
    Inside, ///< the walk goes inside
    Outside,
    Limit,   ///< tread at the legal limit
    Depth,   ///< millimetres
    Unit,    ///< another unit, or something counted: the number before is no depth
    To,      ///< between two numbers of a range
    Talk,    ///< a turn of phrase without meaning for the car
    Mileage, ///< the odometer is spoken of
    Single,  ///< one owner
    Miles,
    Kilometres,
    Keys,
    Months,
    Years,
    Test,
    Stamps,
    Owners,
    Is,    ///< a verb behind a place: what follows is said of it
    Still, ///< "is there", a stop for what negation reaches
    Aim,   ///< a count follows the noun
    Count
};

enum class SenseKind { Side, Axle, Amount, Base, Condition, Severity, Remedy, Cue };

struct Sense
{
    SenseKind kind = SenseKind::Cue;
    int id = 0; ///< of its kind: a SideWord, an Axle, a base's index, a Condition, a Cue ...
    /// Base: several are meant; condition: it stands before its noun; sound: the remedy that the
    /// same word can be, plus one.
    int extra = 0;
};

struct Member
{
    PlaceId place;
    int index = 0; ///< in allPlaces()
    Axle axle = Axle::None;
    /// Left, Right, Driver, Passenger; This where the base has no sides.
    SideWord side = SideWord::This;
};

/// What a noun can mean: one place, or one of several told apart by side and axle.
struct Base
{
    std::string name;
    std::string kind; ///< body, glass, lamp, wheel, tyre, brake, seat, interior, system
    std::vector<Member> members;
    int frontBase = -1; ///< another base when it is said of the front
    int rearBase = -1;
    int insideBase = -1;   ///< what the noun means for conditions of the inside
    int electricBase = -1; ///< what it means on an electric car
    int workBase = -1;     ///< what it means when it is said to work or not
    bool sides = false;
    bool axles = false;
    /// Named beside one of these bases without a position, it is a part of it.
    std::vector<std::string> partOf;
    bool part = false; ///< a part that is named beside its place: it takes the place over weakly
    std::optional<Remedy> remedy; ///< said alone it is also work
    bool opening = false;         ///< named only where a clause opens with it
    bool group = false;           ///< stands for all its members at once
};

struct ConditionWords
{
    Condition id = Condition::Mark;
    /// A base that is meant when none was named, and for which the word is always meant.
    int base = -1;
    bool always = false;
    bool weak = false;  ///< says nothing beside a more exact word
    bool bends = false; ///< on a place where it cannot be, it means its base near by
    /// Another condition for places of this kind.
    std::vector<std::pair<std::string, Condition>> on;
    /// Only said of these kinds; elsewhere the words mean nothing.
    std::vector<std::string> only;
    std::optional<Severity> severity;
};

struct RemedyWords
{
    std::vector<Remedy> ids;
    bool needsCue = false; ///< means work only behind a word of wanting, or of a defect
};

struct Slip
{
    enum class When { Positioned, Counted, Wheel, Wanted, Before };
    When when = When::Positioned;
    std::vector<WordId> meant;
    std::vector<WordId> beside; ///< Before: one of these words follows or precedes
};

/// What a defect is taken to be when only the work was said.
struct Implied
{
    Remedy remedy = Remedy::Replace;
    std::string what; ///< a base's name or kind
    Condition condition = Condition::Worn;
};

struct NumberWord
{
    enum class Kind { Unit, Tens, Hundred, Thousand, And, Half, Quarter, Point, Article };
    Kind kind = Kind::Unit;
    int value = 0;
    bool plural = false;
};

class Lexicon
{
public:
    /// The words why not where the file does not agree with itself or with the vocabulary.
    [[nodiscard]] static tl::expected<Lexicon, QString> read(const QByteArray& json);

    [[nodiscard]] WordId word(std::string_view text) const;
    /// What a word is written as here; empty when it stays.
    [[nodiscard]] std::span<const WordId> rewrite(std::string_view text) const;
    [[nodiscard]] const NumberWord* number(WordId word) const;
    [[nodiscard]] WordId digitWord(int value) const;
    [[nodiscard]] std::span<const Slip> slips(WordId word) const;
    [[nodiscard]] bool isFiller(WordId word) const;
    /// Words that may stand between the parts of one place: the, of, hand.
    [[nodiscard]] bool isGlue(WordId word) const;
    /// "the": what follows is named, not only a direction.
    [[nodiscard]] bool isArticle(WordId word) const;
    /// "ones": several of what was named before.
    [[nodiscard]] bool isOnes(WordId word) const;
    /// The word alone steers in this way.
    [[nodiscard]] bool wordIs(WordId word, Cue cue) const;
    [[nodiscard]] bool unitsBeforeTens() const { return m_unitsBeforeTens; }
    /// German writes a number as one word: its pieces, or nothing.
    [[nodiscard]] bool compoundNumbers() const { return m_compoundNumbers; }
    [[nodiscard]] char decimalSign() const { return m_decimalSign; }

    /// Steps through phrases: the node behind this word, or -1.
    [[nodiscard]] int step(int node, WordId word) const;
    [[nodiscard]] std::span<const Sense> senses(int node) const;

    [[nodiscard]] const std::vector<Base>& bases() const { return m_bases; }
    [[nodiscard]] const Base& base(int index) const { return m_bases[std::size_t(index)]; }
    [[nodiscard]] int baseNamed(std::string_view name) const;
    [[nodiscard]] const ConditionWords& condition(int index) const
    {
        return m_conditions[std::size_t(index)];
    }
    [[nodiscard]] const RemedyWords& remedy(int index) const
    {
        return m_remedies[std::size_t(index)];
    }
    [[nodiscard]] const std::vector<Implied>& implied() const { return m_implied; }
    /// Positions in allPlaces().
    [[nodiscard]] const std::vector<int>& walkRound() const { return m_walkRound; }
    [[nodiscard]] WordId oneWord() const { return m_one; }

private:
    friend class LexiconReader;
    struct TextHash
    {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const noexcept
        {
            return std::hash<std::string_view>{}(text);
        }
    };
    template <typename Value>
    using TextMap = std::unordered_map<std::string, Value, TextHash, std::equal_to<>>;

    TextMap<WordId> m_words;
    TextMap<std::vector<WordId>> m_rewrites;
    std::vector<std::optional<NumberWord>> m_numbers;
    std::vector<bool> m_fillers;
    std::vector<bool> m_glue;
    std::unordered_map<WordId, std::vector<Slip>> m_slips;
    std::vector<bool> m_articles;
    std::vector<bool> m_ones;
    std::unordered_map<std::uint64_t, int> m_steps;
    std::vector<std::vector<Sense>> m_senses; ///< by node
    std::vector<Base> m_bases;
    std::vector<ConditionWords> m_conditions;
    std::vector<RemedyWords> m_remedies;
    std::vector<Implied> m_implied;
    std::vector<int> m_walkRound;
    std::vector<WordId> m_digits;
    WordId m_one = 0;
    char m_decimalSign = '.';
    bool m_unitsBeforeTens = false;
    bool m_compoundNumbers = false;
};

} // namespace ramplight::spoken
