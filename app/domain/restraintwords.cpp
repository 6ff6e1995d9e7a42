// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/restraintwords.h"

#include "domain/say.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight {

namespace {

QString word(Restraint restraint)
{
    switch (restraint) {
    case Restraint::Move:
        return say("move");
    case Restraint::Drive:
        return say("drive");
    case Restraint::Power:
        return say("power");
    }
    return {};
}

} // namespace

QString words(const std::vector<Restraint>& restraints)
{
    QStringList all;
    for (const Restraint restraint : restraints)
        if (const QString text = word(restraint); !all.contains(text))
            all.append(text);
    if (all.isEmpty())
        return {};
    const QString last = all.takeLast();
    return all.isEmpty() ? say("do not %1").arg(last)
                         : say("do not %1 or %2").arg(all.join(QStringLiteral(", ")), last);
}

QString restraintLine(const std::vector<Restraint>& restraints, const QString& why)
{
    if (restraints.empty())
        return {};
    const QString what = capital(words(restraints));
    return why.isEmpty() ? what : QStringLiteral("%1: %2").arg(what, why);
}

QStringList restraintLines(const std::vector<RestraintReason>& reasons)
{
    std::vector<std::pair<QString, std::vector<Restraint>>> byReason;
    for (const RestraintReason& reason : reasons) {
        auto at = std::ranges::find(byReason, reason.words,
                                    &std::pair<QString, std::vector<Restraint>>::first);
        if (at == byReason.end())
            at = byReason.insert(at, {reason.words, {}});
        if (std::ranges::find(at->second, reason.what) == at->second.end())
            at->second.push_back(reason.what);
    }
    QStringList lines;
    for (const auto& [why, what] : byReason)
        lines.append(restraintLine(what, why));
    return lines;
}

} // namespace ramplight
