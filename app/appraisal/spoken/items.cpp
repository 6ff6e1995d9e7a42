// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/items.h"
#include "appraisal/spoken/mentions.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

/// Puts mentions together: a place from its noun, sides and axle; everything else one by one.
class Spotter
{
public:
    Spotter(const Speech& speech, const Lexicon& lexicon)
        : m_tokens(speech.tokens)
        , m_lexicon(lexicon)
        , m_possessive(lexicon.word("'s"))
        , m_mentions(mentionsIn(speech, lexicon))
    {
    }

    Spotted run()
    {
        m_out.items.reserve(m_mentions.size());
        std::uint32_t token = 0;
        for (std::size_t m = 0; m < m_mentions.size();) {
            numbersUntil(token, m_mentions[m].first);
            const std::size_t next = startsPlace(m) ? place(m) : other(m);
            token = m_mentions[next - 1].last + 1;
            token = std::max(token, m_spoken);
            m = next;
            while (m < m_mentions.size() && m_mentions[m].first < token)
                ++m;
        }
        numbersUntil(token, std::uint32_t(m_tokens.size()));
        return std::move(m_out);
    }

private:
    /// Strongest break in front of the tokens of a range.
    Break breakIn(std::uint32_t first, std::uint32_t last) const
    {
        Break strongest = Break::None;
        for (std::uint32_t i = first; i <= last && i < m_tokens.size(); ++i)
            strongest = std::max(strongest, m_tokens[i].turn ? Break::Strong : m_tokens[i].before);
        return strongest;
    }

    bool touches(std::size_t left, std::size_t right) const
    {
        return right < m_mentions.size() && m_mentions[right].first == m_mentions[left].last + 1 &&
               m_tokens[m_mentions[right].first].before == Break::None;
    }

    /// "right" and "back" alone are positions only beside what makes them one.
    bool isBare(std::size_t m) const
    {
        const Sense* sense = m_mentions[m].placeSense();
        if (sense == nullptr || sense->extra != 2 ||
            (sense->kind != SenseKind::Side && sense->kind != SenseKind::Axle))
            return false;
        const auto makes = [&](std::size_t other) {
            const Sense* its = m_mentions[other].placeSense();
            return its != nullptr && its->kind != SenseKind::Amount;
        };
        if (touches(m, m + 1) && makes(m + 1))
            return false;
        if (m > 0 && touches(m - 1, m) && makes(m - 1))
            return false;
        // "the back", "on the right"
        const std::uint32_t first = m_mentions[m].first;
        if (first > 0 && m_tokens[first].before == Break::None &&
            m_lexicon.isArticle(m_tokens[first - 1].word) &&
            m_mentions[m].first == m_mentions[m].last)
            return false;
        const std::uint32_t next = m_mentions[m].last + 1;
        if (next < m_tokens.size() && m_tokens[next].before == Break::None &&
            m_tokens[first].before != Break::None && m_tokens[next].word != 0 &&
            (m_tokens[next].word == m_possessive || m_lexicon.wordIs(m_tokens[next].word, Cue::Is)))
            return false;
        return !(next < m_tokens.size() && m_tokens[next].before == Break::None &&
                 m_tokens[next].word != 0 && m_tokens[next].word == m_lexicon.oneWord());
    }

    /// A warning lamp is spoken of right before.
    bool lampBefore(std::size_t m) const
    {
        for (std::size_t k = m; k-- > 0 && m - k <= 3;) {
            if (breakIn(m_mentions[k].last + 1, m_mentions[m].first) == Break::Strong)
                return false;
            const Sense* noun = m_mentions[k].sense(SenseKind::Base);
            if (noun != nullptr)
                return m_lexicon.base(noun->id).name == "warning-lamps";
        }
        return false;
    }

    bool startsPlace(std::size_t m) const
    {
        return m_mentions[m].placeSense() != nullptr && !isBare(m);
    }

    /// Only small words between two mentions.
    bool onlyGlue(std::size_t left, std::size_t right) const
    {
        const std::uint32_t from = m_mentions[left].last + 1;
        const std::uint32_t to = m_mentions[right].first;
        if (to - from > 2)
            return false;
        for (std::uint32_t i = from; i < to; ++i)
            if (!m_lexicon.isGlue(m_tokens[i].word) && m_tokens[i].word != m_lexicon.oneWord())
                return false;
        return true;
    }

    /// Sides and axles from here on that run into a noun: they belong to it.
    bool runsIntoNoun(std::size_t m) const
    {
        for (; m < m_mentions.size(); ++m) {
            const Sense* sense = m_mentions[m].placeSense();
            if (sense == nullptr)
                return false;
            if (sense->kind == SenseKind::Base)
                return true;
            if (m + 1 >= m_mentions.size() || !onlyGlue(m, m + 1) ||
                breakIn(m_mentions[m].last + 1, m_mentions[m + 1].first) != Break::None)
                return false;
        }
        return false;
    }

    /// "new mirror near side one's okay": sides and axles that "one" closes name something anew.
    bool runsIntoOne(std::size_t m) const
    {
        while (m + 1 < m_mentions.size() && touches(m, m + 1) &&
               (m_mentions[m + 1].sense(SenseKind::Side) != nullptr ||
                m_mentions[m + 1].sense(SenseKind::Axle) != nullptr))
            ++m;
        const std::uint32_t next = m_mentions[m].last + 1;
        return next < m_tokens.size() && m_tokens[next].before == Break::None &&
               m_tokens[next].word != 0 && m_tokens[next].word == m_lexicon.oneWord();
    }

    /// "and the rear's five": what follows "and" has a statement of its own.
    bool ownClause(std::size_t m) const
    {
        while (m + 1 < m_mentions.size() && m_mentions[m].placeSense() != nullptr &&
               m_mentions[m + 1].placeSense() != nullptr && onlyGlue(m, m + 1))
            ++m;
        const std::uint32_t next = m_mentions[m].last + 1;
        if (next >= m_tokens.size())
            return false;
        const Token& token = m_tokens[next];
        return m_mentions[m].sense(SenseKind::Base) == nullptr &&
               (token.tenths >= 0 || token.word == m_possessive ||
                (next + 1 < m_tokens.size() && token.word == m_lexicon.oneWord()));
    }

    /// "five rear and left mirror": a mirror has no rear, so that it is named anew.
    bool foreignNoun(const Naming& naming, std::size_t m) const
    {
        for (; m < m_mentions.size(); ++m) {
            const Sense* sense = m_mentions[m].placeSense();
            if (sense == nullptr)
                return false;
            if (sense->kind == SenseKind::Base) {
                const Base& base = m_lexicon.base(sense->id);
                return naming.positions.back().axle != Axle::None && base.sides && !base.axles &&
                       base.frontBase < 0 && base.rearBase < 0;
            }
            if (m + 1 >= m_mentions.size() || !onlyGlue(m, m + 1))
                return false;
        }
        return false;
    }

    bool setPosition(Naming& naming, const Sense& sense, bool override)
    {
        Position& position = naming.positions.back();
        if (sense.kind == SenseKind::Side) {
            if (position.sideSaid && !override)
                return false;
            position.sideSaid = true;
            position.side = SideWord(sense.id);
        } else {
            if (position.axle != Axle::None && !override)
                return false;
            position.axle = Axle(sense.id);
            position.severalAxle = sense.extra == 1;
        }
        return true;
    }

    /// Reads one naming; the mention behind it.
    std::size_t place(std::size_t start)
    {
        Naming naming;
        naming.positions.emplace_back();
        std::size_t m = start;
        std::size_t end = start; // behind the last that was taken
        bool override = false;
        bool noun = false;
        bool linked = false;
        bool behind = false; // positions behind the noun
        while (m < m_mentions.size()) {
            const Mention& mention = m_mentions[m];
            Break gap = Break::None;
            if (m > start) {
                if (!onlyGlue(m - 1, m))
                    break;
                gap = breakIn(m_mentions[m - 1].last + 1, mention.first);
                if (gap == Break::Strong)
                    break;
            }
            const Sense* sense = mention.placeSense();
            if (sense != nullptr && isBare(m) && !override && !linked)
                break;
            linked = linked && sense == nullptr;
            if (sense == nullptr) {
                const bool more =
                    m + 1 < m_mentions.size() && m_mentions[m + 1].placeSense() != nullptr &&
                    m_mentions[m + 1].placeSense()->kind != SenseKind::Base && onlyGlue(m, m + 1);
                const bool positioned =
                    m > start && (m_mentions[m - 1].sense(SenseKind::Side) != nullptr ||
                                  m_mentions[m - 1].sense(SenseKind::Axle) != nullptr);
                if (mention.has(Cue::And) && more && !noun && positioned && gap == Break::None &&
                    !ownClause(m + 1) && !foreignNoun(naming, m + 1) &&
                    m_mentions[m + 1].placeSense()->kind != SenseKind::Amount) {
                    Position next;
                    // "front and rear near side": what was said of the first holds for the second
                    naming.positions.push_back(next);
                    linked = true;
                    ++m;
                    continue;
                }
                if ((mention.has(Cue::Correction) || mention.has(Cue::No)) && more && !noun &&
                    positioned) {
                    override = true;
                    naming.corrected = true;
                    ++m;
                    continue;
                }
                if (mention.has(Cue::On) && more &&
                    (noun || naming.amountSaid ||
                     (positioned && !naming.positions.back().sideSaid &&
                      m_mentions[m + 1].sense(SenseKind::Side) != nullptr)) &&
                    !runsIntoNoun(m + 1)) {
                    behind = true;
                    ++m;
                    continue;
                }
                break;
            }
            if (sense->kind == SenseKind::Base) {
                if (noun || gap == Break::Weak)
                    break;
                if (naming.amountSaid && naming.amount != Amount::Rest &&
                    naming.amount != Amount::Other && sense->extra == 0 &&
                    m_lexicon.base(sense->id).members.size() < 2 && m > start &&
                    naming.amount == Amount::All)
                    break;
                noun = true;
                naming.base = sense->id;
                naming.several = sense->extra == 1;
            } else if (sense->kind == SenseKind::Amount) {
                if (naming.amountSaid || (noun && runsIntoNoun(m)))
                    break;
                // "left rear, right rear, all of them nice"
                if (!noun && m > start && gap == Break::Weak && sense->extra == amountAlone)
                    break;
                if (noun &&
                    (Amount(sense->id) == Amount::Rest || Amount(sense->id) == Amount::Other ||
                     Amount(sense->id) == Amount::Every))
                    break;
                naming.amountSaid = true;
                naming.amount = Amount(sense->id);
                if (sense->extra == amountAlone) {
                    end = m + 1;
                    break;
                }
            } else {
                if (noun && !behind &&
                    (runsIntoNoun(m) || runsIntoOne(m) || !wants(naming, *sense)))
                    break;
                if (noun && behind && runsIntoNoun(m))
                    break;
                if (!noun && gap == Break::Weak && !override && runsIntoNoun(m) &&
                    sense->kind == SenseKind::Axle && naming.positions.back().axle != Axle::None)
                    break;
                // "all of the carpets, front and back"
                if (noun && naming.several && sense->kind == SenseKind::Axle &&
                    naming.positions.back().axle == Axle::None && m + 2 < m_mentions.size() &&
                    m_mentions[m + 1].has(Cue::And) && onlyGlue(m, m + 1) &&
                    onlyGlue(m + 1, m + 2) && m_mentions[m + 2].sense(SenseKind::Axle) != nullptr &&
                    !runsIntoNoun(m + 2) && !ownClause(m + 2)) {
                    m += 3;
                    end = m;
                    break;
                }
                if (!setPosition(naming, *sense, override))
                    break;
                override = false;
                if (noun && naming.several && sense->kind == SenseKind::Axle &&
                    (naming.positions.back().sideSaid || (gap == Break::Weak && sense->extra != 1)))
                    naming.several = false;
            }
            ++m;
            end = m;
        }
        shareOut(naming);
        const std::uint32_t first = m_mentions[start].first;
        std::uint32_t last = m_mentions[end - 1].last;
        if (last + 1 < m_tokens.size() && m_tokens[last + 1].word != 0 &&
            m_tokens[last + 1].word == m_lexicon.oneWord() &&
            m_tokens[last + 1].before != Break::Strong &&
            (naming.base < 0 || m_mentions[end - 1].sense(SenseKind::Axle) != nullptr ||
             m_mentions[end - 1].sense(SenseKind::Side) != nullptr)) {
            ++last;
            naming.one = true;
            naming.several = false;
        }
        if (last + 1 < m_tokens.size() && m_lexicon.isOnes(m_tokens[last + 1].word) &&
            m_tokens[last + 1].before == Break::None && naming.base < 0) {
            ++last;
            naming.several = true;
        }
        Item item = make(first, last);
        item.kind = Item::Kind::Place;
        item.id = int(m_out.namings.size());
        item.lead = leadBefore(start);
        if (Naming& it = naming; it.base < 0 && !it.amountSaid && item.lead == Lead::On &&
                                 m_mentions[start - 1].first > 0 && oneOnThe(start - 1)) {
            it.one = true;
            item.lead = Lead::None;
        }
        m_out.namings.push_back(std::move(naming));
        push(item);
        m_spoken = last + 1;
        return end;
    }

    /// Whether a position right behind the noun tells its places apart.
    bool wants(const Naming& naming, const Sense& sense) const
    {
        const Base& base = m_lexicon.base(naming.base);
        const bool seat =
            SideWord(sense.id) == SideWord::Driver || SideWord(sense.id) == SideWord::Passenger;
        return sense.kind == SenseKind::Side
                   ? base.sides || (seat && base.axles && base.kind == "interior")
                   : base.axles || base.frontBase >= 0 || base.rearBase >= 0;
    }

    /// "the one on ...": which of several, not where something is.
    bool oneOnThe(std::size_t on) const
    {
        const std::uint32_t one = m_mentions[on].first - 1;
        return m_tokens[one].word == m_lexicon.oneWord() && m_tokens[one].word != 0 && one > 0 &&
               m_lexicon.isArticle(m_tokens[one - 1].word) &&
               m_tokens[m_mentions[on].first].before == Break::None;
    }

    Lead leadBefore(std::size_t m) const
    {
        if (m == 0)
            return Lead::None;
        const Mention& before = m_mentions[m - 1];
        if (m_mentions[m].first - before.last > 3 ||
            breakIn(before.last + 1, m_mentions[m].first) != Break::None)
            return Lead::None;
        for (std::uint32_t i = before.last + 1; i < m_mentions[m].first; ++i)
            if (!m_lexicon.isGlue(m_tokens[i].word) && m_tokens[i].word != 0)
                return Lead::None;
        return before.has(Cue::On)       ? Lead::On
               : before.has(Cue::From)   ? Lead::From
               : before.has(Cue::Beside) ? Lead::Beside
                                         : Lead::None;
    }

    static Item make(std::uint32_t first, std::uint32_t last)
    {
        Item item;
        item.first = first;
        item.last = last;
        return item;
    }

    void push(Item item)
    {
        item.before = breakIn(m_behind, item.first);
        for (std::uint32_t i = m_behind; i <= item.first; ++i) {
            item.turn = item.turn || m_tokens[i].turn;
            item.paragraph = item.paragraph || m_tokens[i].paragraph;
        }
        item.andBefore = m_and;
        item.orBefore = m_or;
        item.butBefore = m_but;
        m_and = m_or = m_but = false;
        m_behind = item.last + 1;
        m_out.items.push_back(item);
    }

    std::size_t other(std::size_t m)
    {
        const Mention& mention = m_mentions[m];
        const Sense* remedy = mention.sense(SenseKind::Remedy);
        const Sense* chosen = nullptr;
        for (const Sense& sense : mention.senses)
            if (sense.kind != SenseKind::Side && sense.kind != SenseKind::Axle &&
                sense.kind != SenseKind::Amount && sense.kind != SenseKind::Base) {
                chosen = &sense;
                break;
            }
        if (chosen == nullptr)
            return m + 1;
        // "fine scratches"
        if (const Sense* severity = mention.sense(SenseKind::Severity);
            severity != nullptr && touches(m, m + 1) &&
            m_mentions[m + 1].sense(SenseKind::Condition) != nullptr)
            chosen = severity;
        // "the light's on": nothing follows that it could be on
        if (chosen->kind == SenseKind::Cue && Cue(chosen->id) == Cue::On)
            if (const Sense* condition = mention.sense(SenseKind::Condition);
                condition != nullptr && lampBefore(m) &&
                !(m + 1 < m_mentions.size() && onlyGlue(m, m + 1) &&
                  breakIn(mention.last + 1, m_mentions[m + 1].first) == Break::None &&
                  m_mentions[m + 1].placeSense() != nullptr))
                chosen = condition;
        if (chosen->kind == SenseKind::Cue) {
            const Cue cue = Cue(chosen->id);
            if (cue == Cue::And || cue == Cue::Or || cue == Cue::But) {
                m_and = m_and || cue == Cue::And;
                m_or = m_or || cue == Cue::Or;
                m_but = m_but || cue == Cue::But;
                return m + 1;
            }
            if (cue == Cue::Is)
                return m + 1;
            if (cue == Cue::On || cue == Cue::From || cue == Cue::Beside || cue == Cue::Talk)
                return m + 1;
        }
        Item item = make(mention.first, mention.last);
        item.id = chosen->id;
        item.extra = chosen->extra;
        item.kind = chosen->kind == SenseKind::Condition  ? Item::Kind::Condition
                    : chosen->kind == SenseKind::Severity ? Item::Kind::Severity
                    : chosen->kind == SenseKind::Remedy   ? Item::Kind::Remedy
                                                          : Item::Kind::Cue;
        if (remedy != nullptr && chosen->kind == SenseKind::Cue)
            item.extra = remedy->id + 1;
        push(item);
        // A number that steers something else is a number all the same.
        return m + 1;
    }

    void numbersUntil(std::uint32_t from, std::uint32_t to)
    {
        for (std::uint32_t i = from; i < to; ++i)
            if (m_tokens[i].tenths >= 0 && !m_tokens[i].money) {
                Item item = make(i, i);
                item.kind = Item::Kind::Number;
                item.id = m_tokens[i].tenths;
                item.extra = m_tokens[i].several ? 1 : 0;
                push(item);
            }
    }

    const std::vector<Token>& m_tokens;
    const Lexicon& m_lexicon;
    WordId m_possessive;
    std::vector<Mention> m_mentions;
    Spotted m_out;
    std::uint32_t m_behind = 0; ///< first token behind the last item
    std::uint32_t m_spoken = 0; ///< first token that is not part of a naming yet
    bool m_and = false;
    bool m_or = false;
    bool m_but = false;
};

} // namespace

Spotted spot(const Speech& speech, const Lexicon& lexicon)
{
    return Spotter(speech, lexicon).run();
}

} // namespace ramplight::spoken
