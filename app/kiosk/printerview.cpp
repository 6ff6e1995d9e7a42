// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/printerview.h"

#include "kiosk/siteasks.h"

#include <algorithm>

namespace ramplight {

PrinterView::PrinterView(Desk& desk, Session& session, SiteBook& book, PrinterKeeper keeper,
                         QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_keeping(std::move(keeper))
    , m_queues(false)
{
}

void PrinterView::refresh()
{
    if (m_looking)
        return;
    m_looking = true;
    m_fault.clear();
    emit changed();
    whenReady(m_desk.printQueues(), this,
              [this](const tl::expected<std::vector<PrintQueue>, QString>& found) {
                  m_looking = false;
                  show(found);
                  emit changed();
              });
}

void PrinterView::show(const tl::expected<std::vector<PrintQueue>, QString>& found)
{
    std::vector<ChoiceRow> rows;
    if (!found) {
        m_fault = found.error();
    } else {
        for (const PrintQueue& printer : *found)
            rows.push_back({printer.name,
                            printer.words.isEmpty()
                                ? printer.name
                                : QStringLiteral("%1: %2").arg(printer.name, printer.words),
                            {},
                            false});
        const bool there = queue().isEmpty() ||
                           std::ranges::find(*found, queue(), &PrintQueue::name) != found->end();
        if (rows.empty())
            m_fault = tr("The printing system knows no printer. Whoever looks after the kiosk sets "
                         "one up in CUPS.");
        else if (!there)
            m_fault = tr("The printer %1 is set, but the printing system knows none of that name.")
                          .arg(queue());
    }
    m_queues.offer(std::move(rows));
    m_queues.setChosen(queue().isEmpty() ? QStringList() : QStringList{queue()});
}

void PrinterView::setQueue(const QString& queue)
{
    whenManager(m_session, m_book, m_ask, QStringLiteral("printer"), tr("to change this kiosk"),
                [this, queue] { keep(queue); });
}

void PrinterView::keep(const QString& queue)
{
    if (!m_ask.begin(QStringLiteral("printer"), [this, queue] { keep(queue); }))
        return;
    whenReady(m_keeping.keep(queue), this, [this, queue](const QString& fault) {
        if (!fault.isEmpty()) {
            m_ask.fail(QStringLiteral("store"), fault, true);
            return;
        }
        m_desk.usePrinter(queue);
        m_queues.setChosen(queue.isEmpty() ? QStringList() : QStringList{queue});
        emit changed();
        m_ask.succeed();
    });
}

} // namespace ramplight
