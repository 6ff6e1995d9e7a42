// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accessports.h"

#include <utility>
#include <vector>

namespace ramplight {

/// Marks that could not be written, oldest first; they live as long as the program. Not for several
/// threads at once.
class HeldMarks
{
public:
    [[nodiscard]] bool isEmpty() const { return m_marks.empty(); }

private:
    friend class HoldingBook;
    std::vector<std::pair<PersonId, SignInMark>> m_marks;
};

/// A book whose marks count also where they cannot be written: on a full disk a wrong PIN is
/// answered otherwise than a right one, and would cost a guesser neither count nor delay. They are
/// held here, judged with the others, and written as soon as that can be done. To keep everybody
/// out for as long would close a wall at which nobody has guessed.
class HoldingBook : public FailureBook
{
public:
    enum class Asked {
        Once,
        Again, ///< the same question is put once more, because the database went away over it
    };

    /// Both outlive it. Asked again, what is held from the first time is not added a second time.
    HoldingBook(FailureBook& book, HeldMarks& held, Asked asked = Asked::Once)
        : m_book(book)
        , m_held(held)
    {
        if (asked == Asked::Again)
            m_added = held.m_marks;
    }

    /// After an error the mark is held.
    tl::expected<void, AccessError> add(PersonId person, const SignInMark& mark) override;
    tl::expected<std::vector<SignInMark>, AccessError> marks(PersonId person) override;
    tl::expected<std::map<PersonId, std::vector<SignInMark>>, AccessError>
    marksSince(Moment from) override;
    tl::expected<std::vector<PersonId>, AccessError> guessedAt() override;
    tl::expected<void, AccessError> clear(PersonId person) override;

private:
    tl::expected<void, AccessError> writeHeld();

    FailureBook& m_book;
    HeldMarks& m_held;
    std::vector<std::pair<PersonId, SignInMark>> m_added; ///< when it was asked before
};

} // namespace ramplight
