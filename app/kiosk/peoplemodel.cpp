// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/peoplemodel.h"

#include "kiosk/carwords.h"
#include "kiosk/wallrow.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array personColumns{
    Column<PersonRow>{"personId", cell<&PersonRow::personId>},
    Column<PersonRow>{"name", cell<&PersonRow::name>},
    Column<PersonRow>{"skills", cell<&PersonRow::skills>},
    Column<PersonRow>{"skillWords", cell<&PersonRow::skillWords>},
    Column<PersonRow>{"skillSection", cell<&PersonRow::skillSection>},
    Column<PersonRow>{"rights", cell<&PersonRow::rights>},
    Column<PersonRow>{"rightWords", cell<&PersonRow::rightWords>},
    Column<PersonRow>{"active", cell<&PersonRow::active>},
    Column<PersonRow>{"onCarId", cell<&PersonRow::onCarId>},
    Column<PersonRow>{"onStockNumber", cell<&PersonRow::onStockNumber>},
    Column<PersonRow>{"onTitle", cell<&PersonRow::onTitle>},
    Column<PersonRow>{"onWords", cell<&PersonRow::onWords>},
};

int order(const PersonRow& row)
{
    const auto skill = fromName<Skill>(row.skills.value(0));
    if (!skill)
        return static_cast<int>(Names<Skill>::table.size());
    const auto& table = Names<Skill>::table;
    const auto found =
        std::ranges::find(table, *skill, [](const auto& entry) { return entry.first; });
    return static_cast<int>(found - table.begin());
}

} // namespace

PeopleModel::PeopleModel(CardFeed& feed, SiteBook& book, Ticker& ticker, bool withInactive,
                         QObject* parent)
    : ListBase(std::make_unique<RowTable<PersonRow>>(personColumns), parent)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
    , m_withInactive(withInactive)
{
    connect(&feed, &CardFeed::changed, this, &PeopleModel::rebuild);
    connect(&book, &SiteBook::changed, this, &PeopleModel::rebuild);
    connect(&ticker, &Ticker::minute, this, &PeopleModel::rebuild);
    rebuild();
}

void PeopleModel::setSkill(const QString& skill)
{
    if (m_skill == skill)
        return;
    m_skill = skill;
    rebuild();
    emit skillChanged();
}

void PeopleModel::rebuild()
{
    std::vector<PersonRow> rows;
    for (const auto& [id, person] : m_book.site().people) {
        if (!person.active && !m_withInactive)
            continue;
        PersonRow row;
        row.personId = id.value;
        row.name = m_book.nameOf(id);
        row.active = person.active;
        QStringList skills;
        for (const Skill skill : person.skills) {
            row.skills.append(nameOf(skill));
            skills.append(words(skill));
        }
        QStringList rights;
        for (const Right right : person.rights) {
            row.rights.append(nameOf(right));
            rights.append(words(right));
        }
        if (!m_skill.isEmpty() && !row.skills.contains(m_skill))
            continue;
        row.skillWords = skills.join(QStringLiteral(", "));
        row.rightWords = rights.join(QStringLiteral(", "));
        row.skillSection = skills.isEmpty() ? tr("Everybody else") : sentence(skills.first());
        for (const CarCard& card : m_feed.cards())
            for (const CardLine& line : card.outstanding)
                if (std::ranges::find(line.people, id) != line.people.end()) {
                    row.onCarId = card.car.text;
                    row.onStockNumber = card.identity.stockNumber;
                    row.onTitle = line.title;
                    row.onWords = dotted(
                        {card.identity.stockNumber, minutesWords(minutesOn(line, m_ticker.now()))});
                }
        rows.push_back(row);
    }
    std::ranges::stable_sort(rows, [](const PersonRow& a, const PersonRow& b) {
        if (a.active != b.active)
            return a.active;
        if (order(a) != order(b))
            return order(a) < order(b);
        return a.name.localeAwareCompare(b.name) < 0;
    });
    replace(std::move(rows));
}

} // namespace ramplight
