// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Each kind of event of the house, as by somebody who does not manage it.
namespace ramplight::test {

namespace {

/// By the painter, who works here and does not manage.
template <class Event>
KindBreaker ofSite(const char* words, std::function<Event(Workbench&)> make)
{
    return {Event::type, kindIn<SiteEvent, Event>(), true, words, [make](Workbench& b) {
                return Forged{{}, b.painter, {}, {make(b)}};
            }};
}

} // namespace

std::vector<KindBreaker> siteKindBreakers()
{
    return {
        ofSite<SiteSetUp>("sets up a workshop that is set up",
                          [](Workbench&) {
                              return SiteSetUp{QStringLiteral("Kestrel Quay"), false, {}};
                          }),
        ofSite<PersonAdded>(
            notManaging,
            [](Workbench& b) {
                const SiteState site = b.ledger.site().value();
                return PersonAdded{PersonId{site.people.rbegin()->first.value + 1}, {}, {}};
            }),
        ofSite<PersonChanged>(notManaging,
                              [](Workbench& b) {
                                  const Person who = *b.ledger.site().value().person(b.glazier);
                                  return PersonChanged{b.glazier, who.skills, who.rights, true};
                              }),
        ofSite<AccessChanged>(notManaging,
                              [](Workbench& b) {
                                  return AccessChanged{b.manager, QStringLiteral("pin")};
                              }),
        ofSite<PinAlarm>("a person who is not there",
                         [](Workbench&) {
                             return PinAlarm{PersonId{900}, 10};
                         }),
        ofSite<BaySet>(
            notManaging,
            [](Workbench&) {
                return BaySet{{BayId{3}, 3, QStringLiteral("Wash"), BayKind::Valet, true}};
            }),
        ofSite<HouseRulesSet>(notManaging, [](Workbench&) { return HouseRulesSet{}; }),
        ofSite<QualificationSet>(
            notManaging,
            [](Workbench& b) {
                return QualificationSet{b.painter, Qualification::Spraying, QDate(2099, 12, 31)};
            }),
        ofSite<SpecialitiesSet>(notManaging,
                                [](Workbench& b) {
                                    return SpecialitiesSet{b.painter, {}};
                                }),
        ofSite<PersonTimesSet>(notManaging,
                               [](Workbench& b) {
                                   return PersonTimesSet{b.painter, {}};
                               }),
        ofSite<ToolSet>(notManaging,
                        [](Workbench&) {
                            return ToolSet{{ToolId{30}, QStringLiteral("D 1"), ToolKind::DialGauge,
                                            QDate(2031, 9, 1), true}};
                        }),
        ofSite<OperationAdjusted>(notManaging,
                                  [](Workbench&) {
                                      OperationAdjusted event;
                                      event.adjustment.operation = QStringLiteral("valet");
                                      return event;
                                  }),
        ofSite<CatalogueAdopted>(notManaging, [](Workbench&) { return CatalogueAdopted{}; }),
    };
}

} // namespace ramplight::test
