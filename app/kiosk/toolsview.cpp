// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/toolsview.h"

#include "kiosk/enumchoices.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr int daysOfWarning = 30;

} // namespace

ToolsView::ToolsView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_book(book)
    , m_ticker(ticker)
    , m_asks(desk, session, book, m_ask)
    , m_kinds(false)
{
    m_kinds.offer(rowsOf<ToolKind>());
    connect(&book, &SiteBook::changed, this, &ToolsView::rebuild);
    connect(&ticker, &Ticker::minute, this, &ToolsView::rebuild);
    connect(&m_kinds, &Choices::chosenChanged, this, &ToolsView::formChanged);
}

void ToolsView::rebuild()
{
    const QDate today = m_book.times().dateOf(m_ticker.now());
    std::vector<ToolRow> rows;
    m_overdue = 0;
    for (const auto& [id, tool] : m_book.site().tools) {
        ToolRow row;
        row.toolId = id.value;
        row.number = tool.number;
        row.kindWords = sentence(words(tool.kind));
        row.active = tool.active;
        row.overdue = tool.active && !tool.isInDate(today);
        row.soon =
            tool.active && !row.overdue && tool.nextCalibration <= today.addDays(daysOfWarning);
        row.dueWords = (row.overdue ? tr("was due %1") : tr("next %1"))
                           .arg(ramplight::dayWords(tool.nextCalibration));
        m_overdue += row.overdue ? 1 : 0;
        rows.push_back(row);
    }
    // What needs somebody comes first, what left last.
    std::ranges::stable_sort(rows, {}, [](const ToolRow& row) {
        return row.overdue ? 0 : row.soon ? 1 : row.active ? 2 : 3;
    });
    m_tools.setRows(std::move(rows));
    emit toolsChanged();
}

void ToolsView::setNumber(const QString& number)
{
    m_number = number;
    emit formChanged();
}

void ToolsView::setDue(const QString& iso)
{
    m_due = QDate::fromString(iso, Qt::ISODate);
    emit formChanged();
}

QString ToolsView::dueWords() const
{
    return m_due.isValid() ? ramplight::dayWords(m_due) : QString();
}

void ToolsView::setActive(bool active)
{
    m_active = active;
    emit formChanged();
}

void ToolsView::edit(int toolId)
{
    const Tool* tool = m_book.site().tool(ToolId{toolId});
    m_tool = tool == nullptr ? ToolId{} : tool->id;
    m_number = tool == nullptr ? QString() : tool->number;
    m_due = tool == nullptr ? QDate() : tool->nextCalibration;
    m_active = tool == nullptr || tool->active;
    m_kinds.setChosen({nameOf(tool == nullptr ? ToolKind::TorqueWrench : tool->kind)});
    m_ask.dismiss();
    emit formChanged();
}

void ToolsView::save()
{
    const ToolKind kind = fromName<ToolKind>(m_kinds.current()).value_or(ToolKind::TorqueWrench);
    m_asks.send(QStringLiteral("saveTool"), tr("to change tool %1").arg(m_number.trimmed()),
                site::SetTool{{m_tool, m_number, kind, m_due, m_active}});
}

} // namespace ramplight
