// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/items.h"
#include "appraisal/spoken/reading.h"

#include <array>
#include <deque>

// Follows a walk-round: which place is spoken of, what is said of it, what is taken back.
namespace ramplight::spoken {

/// A place by its position in allPlaces().
using Place = int;

struct Draft
{
    Place place = 0;
    Condition condition = Condition::Mark;
    std::optional<Severity> severity = {};
    std::vector<Remedy> remedies = {};
    std::optional<int> count = {};
    std::uint32_t first = 0; ///< tokens of the quote
    std::uint32_t last = 0;
    int run = 0; ///< the stretch of speech about the same place
    int sentence = 0;
    int statement = 0; ///< drafts of one statement share it
    double doubt = 0;  ///< grows with everything that was guessed
    bool alive = true;
    bool carried = false; ///< its place was named in a sentence before
    bool weak = false;
    bool borrowed = false; ///< its remedies came with "the same"
};

struct Tread
{
    Place place = 0;
    int low = 0;
    int high = 0;
    int run = 0;
    std::size_t among = 1; ///< places of which it was said at once
    std::uint32_t first = 0;
    std::uint32_t last = 0;
};

/// What is spoken of.
struct Focus
{
    std::vector<Place> places = {};
    int base = -1;
    bool several = false;
    std::uint32_t first = 0; ///< token where it was named
    int sentence = 0;
    std::uint32_t last = 0;
    int statements = 0;
    std::size_t lastPart = 0; ///< of places named in a row without "and", the last begins here
    bool guessed = false;     ///< the side was carried over from far
    bool part = false;
    bool list = false;       ///< several named in a row
    bool rest = false;       ///< "the others"
    bool axled = false;      ///< its axle was named
    bool depthFirst = false; ///< depths are said before their places: "five front, four rear"
};

/// What was last said, for "the same".
struct Stated
{
    enum class Kind { Nothing, Finding, Sound, Tread };
    Kind kind = Kind::Nothing;
    std::vector<Place> places = {};
    std::vector<std::size_t> drafts = {};
    int low = 0;
    int high = 0;
    std::uint32_t last = 0;
};

/// A cue of this kind before an item, in the same sentence and near.
[[nodiscard]] bool cueBefore(const std::vector<Item>& items, std::size_t i, Cue cue,
                             std::uint32_t reach);

class Discourse
{
public:
    Discourse(const Speech& speech, const Lexicon& lexicon, const Spotted& spotted,
              Traffic traffic);
    [[nodiscard]] SpokenReading run();

private:
    struct Resolved
    {
        std::vector<Place> places = {};
        int base = -1;
        bool guessed = false;
    };

    // resolving.cpp: from what was named to places
    [[nodiscard]] Resolved resolve(const Naming& naming) const;
    [[nodiscard]] int baseFor(const Naming& naming) const;
    [[nodiscard]] int topicOf(int base) const;
    [[nodiscard]] bool echoes(const Naming& naming) const;
    [[nodiscard]] bool tellsApart(int base, const Naming& naming) const;
    [[nodiscard]] std::optional<Side> sideOf(const Position& position) const;
    [[nodiscard]] Side toSide(SideWord word) const;
    void resolveAt(const Base& base, const Naming& naming, const Position& position,
                   Resolved& out) const;
    void resolveRest(const Naming& naming, Resolved& out) const;
    [[nodiscard]] std::vector<Place> placesOf(int base) const;
    [[nodiscard]] std::vector<Place> mirrored(const std::vector<Place>& places) const;
    [[nodiscard]] static std::vector<Place> through(const std::vector<Place>& places, bool toTyre);

    // discourse.cpp, focus.cpp, moving.cpp: the walk
    void onPlace(std::size_t i);
    void onCue(std::size_t i);
    void setFocus(std::size_t i, const Resolved& resolved, bool join);
    void heading(const Naming& naming);
    void carry(const Naming& naming, const Resolved& resolved);
    void except(std::size_t i);
    void extend(std::size_t i);
    [[nodiscard]] bool justSaid(const Draft& draft) const;
    void rehang(Draft& draft, std::size_t i, const Resolved& resolved);
    bool narrows(std::size_t i);
    bool movesTo(std::size_t i);
    bool filedUnder(std::size_t i);
    bool widens(std::size_t i);
    [[nodiscard]] bool says(std::size_t i) const;
    [[nodiscard]] bool isPart(std::size_t i) const;
    [[nodiscard]] bool isOrdered(std::size_t i) const;
    [[nodiscard]] bool extends(std::size_t i) const;
    [[nodiscard]] bool isHeading(std::size_t i) const;
    [[nodiscard]] const Item* at(std::size_t i) const;
    [[nodiscard]] const Naming& naming(const Item& item) const;
    /// The place that a statement names behind itself ("a chip in the bonnet"); 0: none.
    [[nodiscard]] std::size_t placeBehind(std::size_t i, bool adjective) const;
    [[nodiscard]] std::vector<Place> focusPlaces(bool singular) const;
    /// Whether a place has a statement of its own behind it ("the rear is fine").
    [[nodiscard]] bool speaks(std::size_t i) const;
    [[nodiscard]] bool fresh(std::uint32_t token, int reach) const;

    // findings.cpp, fitting.cpp, soundness.cpp, likeness.cpp, meaning.cpp
    void onCondition(std::size_t i);
    void onSound(std::size_t i);
    void praiseList(std::size_t i);
    void onSeverity(std::size_t i);
    [[nodiscard]] std::vector<Place> stretch(std::size_t i);
    bool relocated(std::size_t i, const ConditionWords& words);
    void onNormal(std::size_t i);
    void retract(std::size_t i, bool certain);
    void same(std::size_t i);
    void addFindings(std::size_t i, const std::vector<Place>& places, const ConditionWords& words,
                     double doubt);
    /// Keeps a draft; a dead one of the same place and defect makes room, so that their number
    /// stays that of places and defects however long somebody talks.
    std::size_t keep(const Draft& draft);
    /// Puts drafts away that nothing said from here on can reach, so that the others stay few.
    void settle(std::uint32_t token);
    void unsettle();
    [[nodiscard]] std::optional<Draft>& settled(Place place, Condition condition);
    void sayNothingWrong(const std::vector<Place>& places, std::uint32_t token);
    [[nodiscard]] std::vector<Place> fitting(std::vector<Place> places, int base,
                                             const ConditionWords& words, bool& bent) const;
    [[nodiscard]] static bool canBe(Condition condition, Place place);
    [[nodiscard]] bool praises(const Item& item) const;
    [[nodiscard]] bool isCause(std::size_t i) const;
    [[nodiscard]] bool isLandmark(std::size_t i, std::size_t behind,
                                  const ConditionWords& words) const;
    [[nodiscard]] bool isOne(const PlaceId& place, const std::string& what) const;
    [[nodiscard]] const ConditionWords& meantBy(const Item& item) const;
    [[nodiscard]] Condition conditionOn(Place place, const ConditionWords& words) const;
    [[nodiscard]] bool isNegated(std::size_t i) const;
    [[nodiscard]] bool isOfThem(const Item& none) const;
    [[nodiscard]] bool isSupposed(std::size_t i) const;
    [[nodiscard]] bool isHistory(std::size_t i) const;
    [[nodiscard]] bool isAsked(std::size_t i) const;
    [[nodiscard]] int countBefore(std::size_t i) const;

    // remedies.cpp, pendingwork.cpp: work
    void onRemedy(std::size_t i);
    void onNew(std::size_t i);
    void applyRemedy(std::size_t i, const std::vector<Remedy>& ids, std::size_t object);
    [[nodiscard]] std::vector<std::size_t> openDrafts(std::size_t i, bool several) const;
    [[nodiscard]] bool wantedBefore(std::size_t i) const;
    void claimPending(std::size_t draft);
    [[nodiscard]] bool ofAll(std::size_t i) const;
    [[nodiscard]] bool isSubject(std::size_t i) const;
    void implyFindings();

    // treads.cpp
    void onNumber(std::size_t i);
    void addTread(const std::vector<Place>& places, int low, int high, std::size_t i);
    [[nodiscard]] bool isPronoun(std::size_t i) const;
    [[nodiscard]] bool countsOther(std::size_t i) const;
    [[nodiscard]] bool takenBackSince(std::uint32_t token, std::size_t i) const;
    [[nodiscard]] bool placeFollows(std::size_t i, std::size_t behind) const;
    bool sharedOut(std::size_t i);
    [[nodiscard]] bool tyreTalk() const;

    // outcome.cpp
    void readFacts(SpokenReading& reading) const;
    [[nodiscard]] SpokenReading outcome();
    [[nodiscard]] static std::vector<Remedy> workOn(const Draft& draft);
    [[nodiscard]] double confidence(const Draft& draft, int ofItsPlace) const;
    [[nodiscard]] std::string quote(std::uint32_t first, std::uint32_t last) const;
    /// Where it stands: bytes from, and behind its end.
    [[nodiscard]] std::pair<std::uint32_t, std::uint32_t> span(std::uint32_t first,
                                                               std::uint32_t last) const;

    struct PendingWork
    {
        std::vector<Place> places = {};
        int base = -1;
        std::vector<Remedy> ids = {};
        std::uint32_t token = 0;
        std::uint32_t first = 0;
        int sentence = 0;
        bool used = false;
        bool named = false; ///< the place was said with the work
        int statement = 0;  ///< of the finding that it went to
    };
    struct Asked
    {
        std::size_t item = 0;
        std::vector<Place> places = {};
        bool open = false;
    };

    const Speech& m_speech;
    const Lexicon& m_lexicon;
    const std::vector<Item>& m_items;
    const std::vector<Naming>& m_namings;
    Traffic m_traffic;

    Focus m_focus;
    Focus m_before; ///< what was spoken of before that
    Stated m_stated;
    int m_topic = -1; ///< the base that "the front one" stands for
    std::optional<Side> m_side = {};
    bool m_along = false; ///< the walk goes along that side
    Axle m_axle = Axle::None;
    bool m_inside = false;
    bool m_electric = false;
    bool m_van = false;
    std::size_t m_lastAsked = 0; ///< the item of the last defect that was asked for
    bool m_askedOnce = false;
    bool m_twoDoor = false;
    bool m_trims = false; ///< the wheels are of steel with trims
    std::vector<Place> m_askedWorking = {};
    std::uint32_t m_retractedAt = 0;
    int m_retractedRun = 0;
    std::uint32_t m_supposedAt = 0; ///< a defect was only thought of, of these places
    std::vector<Place> m_supposed = {};
    std::uint32_t m_asideUntil = 0;     ///< places named before this token are mere circumstance
    std::uint32_t m_elsewhereUntil = 0; ///< up to this token another car is spoken of
    int m_run = 0;
    int m_sentence = 0;
    int m_statement = 0;
    bool m_corrected = false; ///< what follows replaces what was just said
    std::uint32_t m_correctedAt = 0;
    int m_statementSentence = 0;
    std::vector<char> m_taken = {}; ///< items that another one has used up
    std::vector<Draft> m_drafts = {};
    std::vector<std::optional<Draft>> m_settled = {}; ///< by place and defect
    std::size_t m_settleAt = 64;
    std::vector<Tread> m_treads = {};
    std::vector<int> m_sound = {}; ///< by place: token of the last word of praise plus one
    std::vector<char> m_mentioned = {};
    std::vector<PendingWork> m_pending = {};
    Asked m_asked;
    std::optional<std::size_t> m_referred = {}; ///< "the hole, repair": the draft that is meant
    std::uint32_t m_referredAt = 0;
    std::vector<std::size_t> m_worked = {}; ///< drafts that the last work went to
    std::vector<Remedy> m_lastWork = {};
};

} // namespace ramplight::spoken
