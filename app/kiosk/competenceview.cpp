// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/competenceview.h"

#include "kiosk/enumchoices.h"

#include <algorithm>

namespace ramplight {

CompetenceView::CompetenceView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                               QObject* parent)
    : QObject(parent)
    , m_book(book)
    , m_ticker(ticker)
    , m_asks(desk, session, book, m_ask)
    , m_specialities(true)
{
}

void CompetenceView::edit(int personId)
{
    const Person* person = m_book.site().person(PersonId{personId});
    m_person = person == nullptr ? PersonId{} : person->id;
    m_held = person == nullptr ? std::vector<HeldQualification>{} : person->qualifications;
    const QStringList held = person == nullptr ? QStringList() : person->specialities;
    // Also what an earlier catalogue named and somebody holds.
    QStringList all = held;
    for (const OperationSpec& spec : m_book.catalogue().operations)
        all.append(spec.speciality);
    all.removeAll(QString());
    all.removeDuplicates();
    all.sort();
    std::vector<ChoiceRow> rows;
    for (const QString& speciality : all)
        rows.push_back({speciality, sentence(specialityWords(speciality)), {}, false});
    m_specialities.offer(std::move(rows));
    m_specialities.setChosen(held);
    m_ask.dismiss();
    rebuild();
}

void CompetenceView::setUntil(const QString& qualificationId, const QString& iso)
{
    const auto qualification = fromName<Qualification>(qualificationId);
    if (!qualification)
        return;
    std::erase_if(m_held, [&](const HeldQualification& held) {
        return held.qualification == *qualification;
    });
    const QDate until = QDate::fromString(iso, Qt::ISODate);
    if (until.isValid())
        m_held.push_back({*qualification, until});
    rebuild();
}

void CompetenceView::rebuild()
{
    const QDate today = m_book.times().dateOf(m_ticker.now());
    std::vector<QualificationRow> rows;
    for (const auto& [qualification, name] : Names<Qualification>::table) {
        QualificationRow row;
        row.qualificationId = QString::fromLatin1(name);
        row.title = sentence(words(qualification));
        row.untilWords = tr("not held");
        const auto held =
            std::ranges::find(m_held, qualification, &HeldQualification::qualification);
        if (held != m_held.end()) {
            row.until = held->until.toString(Qt::ISODate);
            row.over = !held->isInDate(today);
            row.untilWords =
                (row.over ? tr("over since %1") : tr("until %1")).arg(dayWords(held->until));
        }
        rows.push_back(row);
    }
    m_rows.setRows(std::move(rows));
    emit formChanged();
}

void CompetenceView::save()
{
    if (m_person.isNull())
        return;
    m_asks.send(QStringLiteral("saveCompetence"), tr("to change %1").arg(name()),
                site::SetCompetence{m_person, m_held, m_specialities.chosen()});
}

} // namespace ramplight
