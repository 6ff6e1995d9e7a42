// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "printing/printwords.h"

#include "domain/say.h"

#include <array>
#include <utility>

namespace ramplight {

namespace {

QString faultWords(PrintFault fault, const QString& queue, const QString& detail)
{
    switch (fault) {
    case PrintFault::NoSystem:
        return say("No printing system answers on this kiosk (CUPS). Whoever looks after the kiosk "
                   "can start it.");
    case PrintFault::NoSuchQueue:
        return say("There is no printer called %1. Choose another one under Settings, Screen.")
            .arg(queue);
    case PrintFault::NotAccepting:
        return say("The printer %1 takes no jobs now. Whoever looks after it can let it take them "
                   "again.")
            .arg(queue);
    case PrintFault::NotPermitted:
        return say("The printer %1 does not print for this kiosk.").arg(queue);
    case PrintFault::NotPrintable:
        return say("The printer %1 cannot print PDF files.").arg(queue);
    case PrintFault::NoAnswer:
        return say("The printer %1 stopped answering. Look whether the page comes before you print "
                   "it again.")
            .arg(queue);
    case PrintFault::GaveUp:
        return say("The printer %1 took the page and gave it up. Look at the printer, then print "
                   "it again.")
            .arg(queue);
    case PrintFault::Refused:
        break;
    }
    return detail.isEmpty() ? say("The printer %1 refused.").arg(queue)
                            : say("The printer %1 refused: %2").arg(queue, detail);
}

struct Trouble
{
    const char* reason;
    const char* words;
};

/// The first that is there is said: what keeps the paper away before what merely stopped it.
constexpr std::array troubles{
    Trouble{"media-empty", QT_TRANSLATE_NOOP("ramplight", "it is out of paper")},
    Trouble{"media-needed", QT_TRANSLATE_NOOP("ramplight", "it waits for paper")},
    Trouble{"media-jam", QT_TRANSLATE_NOOP("ramplight", "paper is jammed in it")},
    Trouble{"cover-open", QT_TRANSLATE_NOOP("ramplight", "it is open")},
    Trouble{"door-open", QT_TRANSLATE_NOOP("ramplight", "it is open")},
    Trouble{"interlock-open", QT_TRANSLATE_NOOP("ramplight", "it is open")},
    Trouble{"input-tray-missing", QT_TRANSLATE_NOOP("ramplight", "its paper tray is not in it")},
    Trouble{"output-area-full", QT_TRANSLATE_NOOP("ramplight", "its output tray is full")},
    Trouble{"toner-empty", QT_TRANSLATE_NOOP("ramplight", "it is out of toner")},
    Trouble{"marker-supply-empty", QT_TRANSLATE_NOOP("ramplight", "it is out of ink or toner")},
    Trouble{"marker-waste-full", QT_TRANSLATE_NOOP("ramplight", "its waste box is full")},
    Trouble{"offline",
            QT_TRANSLATE_NOOP("ramplight",
                              "it cannot be reached: is it switched on, is its cable in?")},
    Trouble{"shutdown", QT_TRANSLATE_NOOP("ramplight", "it is switched off")},
    Trouble{
        "timed-out",
        QT_TRANSLATE_NOOP("ramplight", "it does not answer: is it switched on, is its cable in?")},
    Trouble{"cups-missing-filter", QT_TRANSLATE_NOOP("ramplight", "its driver is not whole")},
    Trouble{"cups-insecure-filter", QT_TRANSLATE_NOOP("ramplight", "its driver is not whole")},
    Trouble{"paused", QT_TRANSLATE_NOOP("ramplight", "it was paused")},
    Trouble{"moving-to-paused", QT_TRANSLATE_NOOP("ramplight", "it was paused")},
};

} // namespace

PrintRefusal refusalOf(PrintFault fault, const QString& queue, const QString& detail)
{
    return {fault, faultWords(fault, queue, detail)};
}

QString troubleWords(const QStringList& reasons)
{
    for (const Trouble& trouble : troubles)
        for (QString reason : reasons) {
            // How grave it is stands behind it; a printer may name none.
            for (const char* ending : {"-error", "-warning", "-report"})
                if (reason.endsWith(QLatin1StringView(ending)))
                    reason.chop(static_cast<qsizetype>(qstrlen(ending)));
            if (reason == QLatin1StringView(trouble.reason))
                return say(trouble.words);
        }
    for (const QString& reason : reasons)
        if (reason.endsWith(QLatin1StringView("-error")))
            return say("it reports %1").arg(reason);
    return {};
}

QString waitingWords(const QString& queue, const QString& trouble)
{
    return say("The printer %1 has the page, but %2. It prints by itself once that is put right: "
               "do "
               "not print it again.")
        .arg(queue, trouble);
}

} // namespace ramplight
