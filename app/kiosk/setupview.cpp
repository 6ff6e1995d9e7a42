// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/setupview.h"

#include "domain/words.h"
#include "kiosk/carwords.h"

#include <QCoreApplication>
#include <QPointer>
#include <QTimeZone>

namespace ramplight {

SetupView::SetupView(Desk& desk, SiteBook& book, DemoMaker demo, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_book(book)
    , m_demo(std::move(demo))
    , m_timeZone(QString::fromUtf8(QTimeZone::systemTimeZoneId()))
    , m_skills(true)
    , m_command(newCommandId())
{
    std::vector<ChoiceRow> skills;
    for (const auto& [value, name] : Names<Skill>::table)
        skills.push_back({QString::fromLatin1(name), sentence(ramplight::words(value)), {}, false});
    m_skills.offer(std::move(skills));
    connect(&m_newPin, &NewPin::changed, this, &SetupView::changed);
    connect(&m_skills, &Choices::chosenChanged, this, &SetupView::changed);
}

void SetupView::setSiteName(const QString& name)
{
    m_siteName = name;
    emit changed();
}

void SetupView::setTimeZone(const QString& zone)
{
    m_timeZone = zone;
    emit changed();
}

void SetupView::setDriveOnRight(bool right)
{
    m_driveOnRight = right;
    emit changed();
}

void SetupView::setLeftRight(bool leftRight)
{
    m_leftRight = leftRight;
    emit changed();
}

void SetupView::setPersonName(const QString& name)
{
    m_personName = name;
    emit changed();
}

bool SetupView::isComplete() const
{
    return !m_siteName.trimmed().isEmpty() && !m_personName.trimmed().isEmpty() &&
           QTimeZone(m_timeZone.toUtf8()).isValid() && m_newPin.isReady();
}

void SetupView::makeWorkshop()
{
    const QString what = QStringLiteral("workshop");
    if (!QTimeZone(m_timeZone.toUtf8()).isValid()) {
        m_ask.refuse(what, QStringLiteral("rule-out-of-range"),
                     tr("This time zone is not known. Type one such as Europe/London."));
        return;
    }
    if (!isComplete()) {
        m_ask.refuse(what, QStringLiteral("field-missing"),
                     tr("The workshop needs its name, and you yours and a PIN."));
        return;
    }
    write(SiteRequest{m_command, {}, command(), m_personName.trimmed()});
}

site::SetUp SetupView::command() const
{
    site::SetUp command;
    command.name = m_siteName.trimmed();
    command.rules.trafficSide = m_driveOnRight ? TrafficSide::Right : TrafficSide::Left;
    command.rules.sideWords = m_leftRight ? SideWords::LeftRight : SideWords::NearOff;
    command.rules.timeZone = m_timeZone;
    for (const QString& id : m_skills.chosen())
        if (const auto skill = fromName<Skill>(id))
            command.firstPersonsSkills.push_back(*skill);
    return command;
}

QStringList SetupView::warnings() const
{
    const site::SetUp asked = command();
    SiteState site;
    const auto events = decide(site, SiteContext{}, asked);
    if (!events)
        return {};
    for (const SiteEvent& event : *events)
        apply(site, SiteEnvelope{site.seq + 1, {}, {}, {}, event});
    for (auto& [id, person] : site.people)
        person.name = m_personName.trimmed();
    // Nobody holds a qualification yet, so it is the same on every day.
    return missingCombinations(site, m_book.catalogue(), {});
}

void SetupView::write(const SiteRequest& request)
{
    if (!m_ask.begin(QStringLiteral("workshop"), [this, request] { write(request); }))
        return;
    // The workshop is there once its only person can sign in to it.
    whenReady(m_desk.runWithPin(request, m_newPin.copy()), this,
              [this](const tl::expected<SiteOutcome, Failure>& outcome) {
                  if (!outcome) {
                      const auto* refusal = std::get_if<Refusal>(&outcome.error());
                      m_ask.fail(refusal == nullptr ? QStringLiteral("store") : idText(refusal->id),
                                 words(outcome.error()), refusal == nullptr);
                      return;
                  }
                  m_newPin.reset();
                  m_ask.succeed();
                  m_book.take(outcome->site);
              });
}

void SetupView::makeDemo()
{
    if (!m_demo || !m_ask.begin(QStringLiteral("demo"), [this] { makeDemo(); }))
        return;
    m_progress = 0;
    emit progressChanged();
    const auto tell = [self = QPointer<SetupView>(this)](double progress) {
        QMetaObject::invokeMethod(
            qApp,
            [self, progress] {
                if (!self)
                    return;
                self->m_progress = progress;
                emit self->progressChanged();
            },
            Qt::QueuedConnection);
    };
    whenReady(m_demo(tell), this, [this](const tl::expected<void, QString>& made) {
        if (!made) {
            m_ask.fail(QStringLiteral("demo"), made.error(), true);
            return;
        }
        m_progress = 1;
        emit progressChanged();
        m_ask.succeed();
        m_book.refresh();
    });
}

} // namespace ramplight
