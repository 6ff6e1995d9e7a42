// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/signinguard.h"

#include <algorithm>

namespace ramplight {

using std::chrono::milliseconds;

milliseconds delayAfter(const GuardRules& rules, int inARow)
{
    if (inARow <= rules.freeFailures)
        return milliseconds{0};
    milliseconds delay = rules.firstDelay;
    for (int i = rules.freeFailures + 1; i < inARow && delay < rules.longestDelay; ++i)
        delay *= 2;
    return std::min<milliseconds>(delay, rules.longestDelay);
}

GuardVerdict judgeSignIns(const GuardRules& rules, std::span<const SignInMark> marks, Moment now)
{
    GuardVerdict verdict;
    const qint64 windowBegin = now.ms - milliseconds(rules.window).count();
    std::span<const SignInMark> row = marks; // what came after the last success
    for (std::size_t i = 0; i < marks.size(); ++i) {
        switch (marks[i].kind) {
        case SignInMark::Kind::WrongPin:
            if (++verdict.inARow == 1)
                verdict.firstOfRow = marks[i].at;
            verdict.lastOfRow = marks[i].at;
            if (marks[i].at.ms >= windowBegin)
                ++verdict.inWindow;
            break;
        case SignInMark::Kind::Success:
            verdict.inARow = 0;
            verdict.rowMarked = false;
            verdict.firstOfRow = verdict.lastOfRow = {};
            break;
        case SignInMark::Kind::ClockBack:
            break;
        case SignInMark::Kind::Lock:
            verdict.lockMarked = true;
            break;
        case SignInMark::Kind::Row:
            verdict.rowMarked = true;
            break;
        case SignInMark::Kind::Spread:
            break;
        }
        if (verdict.inARow == 0)
            row = marks.subspan(i + 1);
    }
    verdict.locked = verdict.lockMarked || verdict.inWindow >= rules.hardStop;

    const milliseconds delay = delayAfter(rules, verdict.inARow);
    verdict.atLongest = delay >= milliseconds(rules.longestDelay);
    if (delay == milliseconds{0} || row.empty())
        return verdict;
    verdict.clockWentBack = row.back().at > now;
    // The shortest time since any mark that is not ahead of now: after a jump back and forth again
    // the last mark alone would make the time since the failure look longer than it was.
    milliseconds elapsed = verdict.clockWentBack ? milliseconds{0} : milliseconds::max();
    for (const SignInMark& mark : row)
        // What is told of a row delays nobody: it may be marked long after.
        if (mark.at <= now && mark.kind != SignInMark::Kind::Row)
            elapsed = std::min(elapsed, milliseconds{now.ms - mark.at.ms});
    verdict.wait = std::max(milliseconds{0}, delay - elapsed);
    return verdict;
}

std::optional<WrongPins> toldAtSignIn(const GuardRules& rules, const GuardVerdict& verdict,
                                      Moment now)
{
    if (verdict.inARow == 0)
        return {};
    // Where the clock was set back nobody can tell when it began.
    const bool isOfNow = verdict.firstOfRow <= now &&
                         milliseconds{now.ms - verdict.firstOfRow.ms} <= rules.sameOccasion;
    if (isOfNow && verdict.inARow < rules.toldInARow)
        return {};
    return WrongPins{verdict.inARow, verdict.lastOfRow};
}

std::optional<PinGuesses> lockIn(PersonId person, std::span<const SignInMark> marks)
{
    int failures = 0;
    for (const SignInMark& mark : marks) {
        if (mark.kind == SignInMark::Kind::Lock)
            return PinGuesses{person, mark.at, failures};
        if (mark.kind == SignInMark::Kind::WrongPin)
            ++failures;
    }
    return {};
}

std::vector<PinGuesses> guessesIn(PersonId person, std::span<const SignInMark> marks)
{
    std::vector<PinGuesses> all;
    int inARow = 0;
    bool isMarked = false; // two kiosks may have marked one row
    for (const SignInMark& mark : marks) {
        if (mark.kind == SignInMark::Kind::WrongPin) {
            ++inARow;
        } else if (mark.kind == SignInMark::Kind::Success) {
            inARow = 0;
            isMarked = false;
        } else if (mark.kind == SignInMark::Kind::Row && !isMarked) {
            isMarked = true;
            all.push_back({person, mark.at, inARow, mark.kind});
        }
    }
    if (const auto lock = lockIn(person, marks))
        all.push_back(*lock);
    return all;
}

std::optional<PinGuesses> spreadIn(const GuardRules& rules,
                                   const std::map<PersonId, std::vector<SignInMark>>& marks,
                                   Moment now)
{
    const qint64 from = now.ms - milliseconds(rules.spreadWindow).count();
    PinGuesses found{{}, now, 0, SignInMark::Kind::Spread, 0};
    for (const auto& [person, all] : marks) {
        int open = 0;
        for (const SignInMark& mark : all)
            if (mark.kind == SignInMark::Kind::Success)
                open = 0;
            else if (mark.kind == SignInMark::Kind::WrongPin && mark.at.ms >= from)
                ++open;
        found.failures += open;
        found.people += open > 0 ? 1 : 0;
    }
    if (found.failures < rules.spreadFailures || found.people < rules.spreadPeople)
        return {};
    return found;
}

bool isSpreadMarked(const GuardRules& rules, std::span<const SignInMark> nobodys, Moment now)
{
    return std::ranges::any_of(nobodys, [&](const SignInMark& mark) {
        return mark.kind == SignInMark::Kind::Spread &&
               std::chrono::abs(milliseconds{now.ms - mark.at.ms}) <= rules.spreadWindow;
    });
}

} // namespace ramplight
