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
            ++verdict.inARow;
            if (marks[i].at.ms >= windowBegin)
                ++verdict.inWindow;
            break;
        case SignInMark::Kind::Success:
            verdict.inARow = 0;
            break;
        case SignInMark::Kind::ClockBack:
            break;
        case SignInMark::Kind::Lock:
            verdict.lockMarked = true;
            break;
        }
        if (verdict.inARow == 0)
            row = marks.subspan(i + 1);
    }
    verdict.locked = verdict.lockMarked || verdict.inWindow >= rules.hardStop;

    const milliseconds delay = delayAfter(rules, verdict.inARow);
    if (delay == milliseconds{0} || row.empty())
        return verdict;
    verdict.clockWentBack = row.back().at > now;
    // The shortest time since any mark that is not ahead of now: after a jump back and forth again
    // the last mark alone would make the time since the failure look longer than it was.
    milliseconds elapsed = verdict.clockWentBack ? milliseconds{0} : milliseconds::max();
    for (const SignInMark& mark : row)
        if (mark.at <= now)
            elapsed = std::min(elapsed, milliseconds{now.ms - mark.at.ms});
    verdict.wait = std::max(milliseconds{0}, delay - elapsed);
    return verdict;
}

std::optional<PinLock> lockIn(PersonId person, std::span<const SignInMark> marks)
{
    int failures = 0;
    for (const SignInMark& mark : marks) {
        if (mark.kind == SignInMark::Kind::Lock)
            return PinLock{person, mark.at, failures};
        if (mark.kind == SignInMark::Kind::WrongPin)
            ++failures;
    }
    return {};
}

} // namespace ramplight
