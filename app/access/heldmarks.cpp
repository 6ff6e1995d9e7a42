// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/heldmarks.h"

#include "access/signinguard.h"
#include "log/log.h"

#include <algorithm>
#include <tuple>

namespace ramplight {

tl::expected<void, AccessError> HoldingBook::writeHeld()
{
    auto& marks = m_held.m_marks;
    for (auto next = marks.begin(); next != marks.end(); next = marks.erase(next))
        if (auto written = m_book.add(next->first, next->second); !written)
            return written;
    return {};
}

tl::expected<void, AccessError> HoldingBook::add(PersonId person, const SignInMark& mark)
{
    if (const auto before = std::ranges::find(m_added, std::pair(person, mark));
        before != m_added.end()) {
        m_added.erase(before);
        return writeHeld();
    }
    auto written = writeHeld().and_then([&] { return m_book.add(person, mark); });
    if (!written) {
        log::warn(QStringLiteral("what is noted of the sign-ins of person %1 cannot be written, "
                                 "and is held until it can")
                      .arg(person.value));
        m_held.m_marks.emplace_back(person, mark);
    }
    return written;
}

tl::expected<std::vector<SignInMark>, AccessError> HoldingBook::marks(PersonId person)
{
    std::ignore = writeHeld();
    auto all = m_book.marks(person);
    if (all)
        for (const auto& [whose, mark] : m_held.m_marks)
            if (whose == person)
                all->push_back(mark);
    return all;
}

tl::expected<std::map<PersonId, std::vector<SignInMark>>, AccessError>
HoldingBook::marksSince(Moment from)
{
    std::ignore = writeHeld();
    auto all = m_book.marksSince(from);
    if (all)
        for (const auto& [whose, mark] : m_held.m_marks)
            if (mark.at >= from)
                (*all)[whose].push_back(mark);
    return all;
}

tl::expected<std::vector<PersonId>, AccessError> HoldingBook::guessedAt()
{
    std::ignore = writeHeld();
    auto people = m_book.guessedAt();
    if (people)
        for (const auto& [whose, mark] : m_held.m_marks)
            if (std::ranges::find(*people, whose) == people->end() &&
                (mark.kind == SignInMark::Kind::Spread || !guessesIn(whose, {&mark, 1}).empty()))
                people->push_back(whose);
    return people;
}

tl::expected<void, AccessError> HoldingBook::clear(PersonId person)
{
    auto cleared = m_book.clear(person);
    if (cleared)
        std::erase_if(m_held.m_marks, [person](const auto& held) { return held.first == person; });
    return cleared;
}

} // namespace ramplight
