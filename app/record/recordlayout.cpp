// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordlayout.h"

#include "domain/say.h"
#include "record/buyersections.h"
#include "record/firstpage.h"
#include "record/papertype.h"
#include "record/recordsections.h"
#include "record/recordwords.h"

namespace ramplight::paper {

namespace {

void addRight(Page& page, double y, const QString& text, Type type, Tone tone)
{
    page.emplace_back(Text{{margin + column - widthOf(text, type), y}, text, type, tone});
}

void addHead(Page& page, const RecordModel& model)
{
    const double y = 15 * mm;
    page.emplace_back(
        Text{{margin, y},
             QStringLiteral("%1 · %2").arg(model.identity.stockNumber, carName(model.identity)),
             Type::SmallBold,
             Tone::Ink});
    addRight(page, y,
             model.status == CarStatus::Released
                 ? say("Handover record")
                 : QStringLiteral("%1 · %2").arg(say("Handover record"), statusTitle(model)),
             Type::Small, Tone::Muted);
    page.emplace_back(Rule{QLineF(margin, y + 1.8 * mm, margin + column, y + 1.8 * mm)});
}

void addFoot(Page& page, const RecordModel& model, std::size_t number, std::size_t of)
{
    const double y = pageHeight - 13 * mm;
    page.emplace_back(Rule{QLineF(margin, y - 4.2 * mm, margin + column, y - 4.2 * mm)});
    QString left = QStringLiteral("%1 · %2").arg(model.identity.stockNumber, model.fingerprint);
    if (model.demo)
        left += QStringLiteral(" · %1").arg(say("demo workshop, all made up"));
    page.emplace_back(Text{{margin, y}, left, Type::Small, Tone::Muted});
    addRight(page, y, say("%1 of %2").arg(number).arg(of), Type::SmallBold, Tone::Ink);
}

} // namespace

Flow flowOf(const RecordModel& model, double firstTop)
{
    Flow flow;
    addBuyerSections(flow, model, firstTop);
    addSections(flow, model);
    return flow;
}

std::vector<Page> layOut(const RecordModel& model)
{
    Page front;
    const double below = addFront(front, model);
    std::vector<Page> pages = flowOf(model, below).pages(below);
    pages.front().insert(pages.front().begin(), front.begin(), front.end());
    for (std::size_t i = 0; i < pages.size(); ++i) {
        if (i > 0)
            addHead(pages[i], model);
        addFoot(pages[i], model, i + 1, pages.size());
    }
    return pages;
}

} // namespace ramplight::paper
