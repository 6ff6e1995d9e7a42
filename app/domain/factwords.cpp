// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/factwords.h"

#include "domain/say.h"
#include "domain/words.h"

namespace ramplight {

QStringList changeWords(const CarFacts& was, const CarFacts& is)
{
    QStringList changes;
    const auto compare = [&](const QString& what, const QString& before, const QString& now) {
        if (before == now)
            return;
        const QString value = now.isEmpty() ? say("not entered") : now;
        changes.append(before.isEmpty() ? say("%1 %2").arg(what, value)
                                        : say("%1 %2 instead of %3").arg(what, value, before));
    };
    const auto odometer = [](const CarFacts& facts) {
        return facts.odometer == 0 ? QString() : odometerWords(facts.odometer, facts.odometerUnit);
    };
    const auto count = [](int number) { return number == 0 ? QString() : QString::number(number); };
    const auto months = [](const CarFacts& facts) {
        return facts.testCertificateMonths ? QString::number(*facts.testCertificateMonths)
                                           : QString();
    };
    compare(say("odometer"), odometer(was), odometer(is));
    compare(say("keys"), count(was.keys), count(is.keys));
    compare(say("months left on the test certificate"), months(was), months(is));
    compare(say("tyres"), fitmentWords(was.frontTyre), fitmentWords(is.frontTyre));
    compare(say("tyres at the rear"), fitmentWords(was.rearTyre), fitmentWords(is.rearTyre));
    for (const auto& [fact, name] : Names<Fact>::table)
        if (was.is(fact) != is.is(fact))
            changes.append(is.is(fact) ? words(fact) : say("no %1").arg(words(fact)));
    return changes;
}

} // namespace ramplight
