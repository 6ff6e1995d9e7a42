// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/staffview.h"

#include "kiosk/enumchoices.h"
#include "kiosk/typednumber.h"

namespace ramplight {

StaffView::StaffView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
                     const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
    , m_catalogue(catalogue)
    , m_asks(desk, session, book, m_ask)
    , m_people(feed, book, ticker, true)
    , m_bays(feed, book, ticker, true)
    , m_skills(true)
    , m_rights(true)
    , m_bayKinds(false)
{
    m_skills.offer(rowsOf<Skill>());
    m_rights.offer(rowsOf<Right>());
    m_bayKinds.offer(rowsOf<BayKind>());
    connect(&book, &SiteBook::changed, this, &StaffView::onSite);
    connect(&ticker, &Ticker::minute, this, &StaffView::onSite); // what ends, ends at midnight
}

void StaffView::onSite()
{
    const QStringList warnings =
        m_book.site().isSetUp()
            ? missingCombinations(m_book.site(), m_catalogue, m_book.times().dateOf(m_ticker.now()))
            : QStringList();
    if (warnings == m_warnings)
        return;
    m_warnings = warnings;
    emit warningsChanged();
}

// ---- the form --------------------------------------------------------------------------------

void StaffView::setName(const QString& name)
{
    m_name = name;
    emit formChanged();
}

void StaffView::setActive(bool active)
{
    m_active = active;
    emit formChanged();
}

void StaffView::setBayNumber(const QString& number)
{
    m_bayNumber = number;
    emit formChanged();
}

void StaffView::setBayName(const QString& name)
{
    m_bayName = name;
    emit formChanged();
}

void StaffView::setBayActive(bool active)
{
    m_bayActive = active;
    emit formChanged();
}

void StaffView::edit(int personId)
{
    const Person* person = m_book.site().person(PersonId{personId});
    m_person = person == nullptr ? PersonId{} : person->id;
    m_name = person == nullptr ? QString() : person->name;
    m_active = person == nullptr || person->active;
    m_skills.setChosen(person == nullptr ? QStringList() : idsOf(person->skills));
    m_rights.setChosen(person == nullptr ? QStringList{nameOf(Right::Work)}
                                         : idsOf(person->rights));
    m_badge.clear();
    m_badgeDone.clear();
    m_newPin.reset();
    m_ask.dismiss();
    emit formChanged();
}

void StaffView::editBay(int bayId)
{
    const Bay* bay = m_book.site().bay(BayId{bayId});
    m_bay = bay == nullptr ? BayId{} : bay->id;
    m_bayNumber = bay == nullptr ? QString() : QString::number(bay->number);
    m_bayName = bay == nullptr ? QString() : bay->name;
    m_bayActive = bay == nullptr || bay->active;
    m_bayKinds.setChosen({nameOf(bay == nullptr ? BayKind::Any : bay->kind)});
    m_ask.dismiss();
    emit formChanged();
}

void StaffView::badgeScanned(const QString& code)
{
    whenReady(m_desk.personOfBadge(code), this,
              [this, code,
               form = m_person](const tl::expected<std::optional<PersonId>, AccessError>& owner) {
                  if (form != m_person)
                      return;
                  if (!owner) {
                      m_ask.refuse(QStringLiteral("badge"), QStringLiteral("store"),
                                   words(owner.error()));
                      return;
                  }
                  m_badge = code;
                  m_badgeOf = owner->value_or(PersonId{});
                  emit formChanged();
              });
}

QString StaffView::badgeWords() const
{
    if (m_badge.isEmpty())
        return m_badgeDone;
    if (m_person.isNull())
        return tr("Add the person first; then hold the badge to the reader again.");
    if (m_badgeOf.isNull())
        return tr("A badge was read. Give it to %1?").arg(m_name);
    if (m_badgeOf == m_person)
        return tr("%1 has this badge already.").arg(m_name);
    return tr("This is the badge of %1, who would be without one. Give it to %2 instead?")
        .arg(m_book.nameOf(m_badgeOf), m_name);
}

QString StaffView::giveBadgeWords() const
{
    if (m_badge.isEmpty() || m_badgeOf == m_person)
        return {};
    return m_badgeOf.isNull() ? tr("Give the badge")
                              : tr("Take it from %1").arg(m_book.nameOf(m_badgeOf));
}

// ---- doing -----------------------------------------------------------------------------------

void StaffView::save()
{
    const QString name = m_name.trimmed();
    const std::vector<Skill> skills = chosenOf<Skill>(m_skills);
    const std::vector<Right> rights = chosenOf<Right>(m_rights);
    if (!m_person.isNull()) {
        m_asks.send(QStringLiteral("save"), tr("to change %1").arg(name),
                    site::ChangePerson{m_person, skills, rights, m_active}, name, {});
        return;
    }
    if (!m_newPin.isReady()) {
        m_ask.refuse(QStringLiteral("save"), QStringLiteral("field-missing"),
                     tr("A new person needs a PIN: let them choose it on the pad, twice."));
        return;
    }
    const auto pin = std::make_shared<Secret>(m_newPin.copy());
    m_asks.send(QStringLiteral("save"), tr("to add %1").arg(name), site::AddPerson{skills, rights},
                name, [this, name, pin](const SiteOutcome& outcome, PersonId) {
                    // From here on the form is about somebody who exists: whatever happens to the
                    // PIN, a second save() adds nobody a second time.
                    m_person = outcome.person;
                    // A try whose answer was lost went through: it was the last one of that name.
                    if (m_person.isNull())
                        for (const auto& [id, person] : outcome.site.people)
                            if (person.name == name)
                                m_person = id;
                    emit formChanged();
                    QMetaObject::invokeMethod(
                        this, [this, person = m_person, pin] { writePin(person, pin); },
                        Qt::QueuedConnection);
                });
}

void StaffView::writePin(PersonId person, const std::shared_ptr<const Secret>& pin)
{
    if (!m_ask.begin(QStringLiteral("pin"), [this, person, pin] { writePin(person, pin); }))
        return;
    whenReady(m_desk.setPin(person, pin->clone()), this,
              [this](const tl::expected<void, AccessError>& written) {
                  if (!written) {
                      m_ask.fail(QStringLiteral("pin"),
                                 tr("The PIN was not set: %1").arg(words(written.error())), true);
                      return;
                  }
                  m_newPin.reset();
                  m_ask.succeed();
              });
}

void StaffView::resetPin()
{
    if (m_person.isNull() || !m_newPin.isReady()) {
        m_ask.refuse(QStringLiteral("pin"), QStringLiteral("field-missing"),
                     tr("Choose the new PIN on the pad, twice."));
        return;
    }
    const PersonId person = m_person;
    const auto pin = std::make_shared<Secret>(m_newPin.copy());
    m_asks.send(
        QStringLiteral("pin"), tr("to give %1 a new PIN").arg(m_book.nameOf(person)),
        site::ChangeAccess{person, QStringLiteral("pin")}, {},
        [this](const SiteOutcome&, PersonId) { m_newPin.reset(); },
        [this, pin](const SiteRequest& request) {
            return m_desk.runWithPin(request, pin->clone());
        });
}

void StaffView::changeBadge(const QString& code)
{
    if (m_person.isNull())
        return;
    const PersonId person = m_person;
    m_asks.send(
        QStringLiteral("badge"), tr("to change the badge of %1").arg(m_book.nameOf(person)),
        site::ChangeAccess{person, QStringLiteral("badge")}, {},
        [this, person, code](const SiteOutcome&, PersonId) {
            if (person != m_person)
                return;
            m_badge.clear();
            m_badgeDone =
                (code.isEmpty() ? tr("%1 has no badge now.") : tr("%1 has this badge now."))
                    .arg(m_book.nameOf(person));
            emit formChanged();
        },
        [this, code](const SiteRequest& request) { return m_desk.runWithBadge(request, code); });
}

void StaffView::giveBadge()
{
    if (m_badge.isEmpty()) {
        m_ask.refuse(QStringLiteral("badge"), QStringLiteral("field-missing"),
                     tr("Hold the badge to the reader first."));
        return;
    }
    changeBadge(m_badge);
}

void StaffView::takeBadge()
{
    changeBadge({});
}

void StaffView::saveBay()
{
    const auto number = typedNumber(m_bayNumber, 0);
    if (!number) {
        m_ask.refuse(QStringLiteral("saveBay"), QStringLiteral("value-out-of-range"),
                     tr("The bay needs the number that is painted on the floor."));
        return;
    }
    Bay bay;
    bay.id = m_bay;
    bay.number = *number;
    bay.name = m_bayName.trimmed();
    bay.kind = fromName<BayKind>(m_bayKinds.current()).value_or(BayKind::Any);
    bay.active = m_bayActive;
    m_asks.send(QStringLiteral("saveBay"), tr("to change bay %1").arg(*number), site::SetBay{bay});
}

void StaffView::stopAllWork()
{
    const CommandId command = newCommandId();
    m_session.whenPinAgain(tr("to stop all work for today"), [this, command](PersonId by) {
        m_ask.send<int>(QStringLiteral("stopAllWork"),
                        [this, command, by] { return m_desk.stopAllWork(command, by, {}); }, {});
    });
}

} // namespace ramplight
