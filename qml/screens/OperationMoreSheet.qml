// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What can come in the way of an operation: a part, an outside firm, somebody else's turn, a check
// that fails. Each leads to the few things it asks for.
DialogSheet {
    id: root

    required property Shell shell
    required property OperationView view

    title: qsTr("Something in the way")
    sheetWidth: Math.min(Theme.mm(200), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    function choose(sheet: DialogSheet): void {
        root.shown = false
        sheet.shown = true
    }

    // Sets or lifts it, whichever is due.
    function askIsolation(): void {
        choose(root.view.liftOffer.shown ? liftSheet : isolateSheet)
    }

    Flow {
        width: parent.width
        spacing: Theme.gap

        ActionButton {
            visible: root.view.blockOffer.shown
            paper: true
            text: qsTr("Waiting for a part")
            available: root.view.blockOffer.can
            reason: root.view.blockOffer.why
            onTapped: root.choose(partSheet)
        }

        ActionButton {
            visible: root.view.sendOutOffer.shown
            paper: true
            text: qsTr("Send it out")
            available: root.view.sendOutOffer.can
            reason: root.view.sendOutOffer.why
            onTapped: root.choose(outSheet)
        }

        ActionButton {
            visible: root.view.handOverOffer.shown
            paper: true
            text: qsTr("Hand it over")
            available: root.view.handOverOffer.can
            reason: root.view.handOverOffer.why
            onTapped: root.choose(handSheet)
        }

        ActionButton {
            visible: root.view.failOffer.shown
            paper: true
            kind: ActionButton.Safety
            text: qsTr("The check fails")
            available: root.view.failOffer.can
            reason: root.view.failOffer.why
            onTapped: root.choose(failSheet)
        }

        ActionButton {
            visible: root.view.leaveOffer.shown
            paper: true
            text: qsTr("Leave it as it is")
            available: root.view.leaveOffer.can
            reason: root.view.leaveOffer.why
            onTapped: root.choose(leaveSheet)
        }

        ActionButton {
            visible: root.view.withdrawOffer.shown
            paper: true
            text: qsTr("Take it out")
            available: root.view.withdrawOffer.can
            reason: root.view.withdrawOffer.why
            onTapped: root.choose(withdrawSheet)
        }

        ActionButton {
            visible: root.view.reopenOffer.shown
            paper: true
            text: qsTr("Open it again")
            available: root.view.reopenOffer.can
            reason: root.view.reopenOffer.why
            onTapped: root.choose(reopenSheet)
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.shown = false
        }
    ]

    // The sheets behind the choices lie over the screen, not inside this one.
    readonly property list<Item> over: [
        PartSheet {
            id: partSheet

            parent: root.parent
            ask: root.view.ask
            today: root.shell.today
            onSaid: (part, supplier, due) => root.view.blockForPart(part, supplier, due)
        },
        SendOutSheet {
            id: outSheet

            parent: root.parent
            ask: root.view.ask
            today: root.shell.today
            onSaid: (firm, due, keys, document) => root.view.sendOut(firm, due, keys, document)
        },
        ColleagueSheet {
            id: handSheet

            parent: root.parent
            ask: root.view.ask
            colleagues: root.view.colleagues
            onSaid: personId => root.view.handOver(personId)
        },
        FailSheet {
            id: failSheet

            parent: root.parent
            ask: root.view.ask
            work: root.view.checkedWork
            named: root.view.mustNameWork
            onSaid: (operationId, words) => {
                if (operationId > 0)
                    root.view.failCheckOf(operationId, words)
                else
                    root.view.failCheck(words)
            }
        },
        WordsSheet {
            id: isolateSheet

            parent: root.parent
            ask: root.view.ask
            asks: "isolate"
            title: qsTr("High voltage is isolated")
            hint: qsTr("Locked off, proved dead, by a trained person, after the vehicle maker's procedure.")
            label: qsTr("Where lock and key are kept")
            confirm: qsTr("It is isolated")
            safety: true
            onSaid: words => root.view.isolate(words)
        },
        WordsSheet {
            id: liftSheet

            parent: root.parent
            ask: root.view.ask
            asks: "liftIsolation"
            title: qsTr("Lift the isolation")
            hint: qsTr("The high voltage can be live again from then on. Everybody clear of the car, its parts and covers back, by the vehicle maker's procedure. %1")
                .arg(root.view.isolatedByMe ? qsTr("You set it.")
                    : qsTr("Only who set it, or a qualified person who writes down the procedure followed."))
            label: root.view.isolatedByMe ? qsTr("What is worth saying of it") : qsTr("Procedure")
            needed: !root.view.isolatedByMe
            confirm: qsTr("Lift it")
            safety: true
            onSaid: words => root.view.liftIsolation(words)
        },
        WordsSheet {
            id: leaveSheet

            parent: root.parent
            ask: root.view.ask
            asks: "leaveAsIs"
            title: qsTr("Leave it as it is")
            hint: qsTr("It is printed for the buyer, in these words.")
            label: qsTr("What the buyer reads")
            most: root.view.mostLeftWords
            confirm: qsTr("Leave it")
            onSaid: words => root.view.leaveAsIs(words)
        },
        WordsSheet {
            id: withdrawSheet

            parent: root.parent
            ask: root.view.ask
            asks: "withdraw"
            title: qsTr("Take it out")
            confirm: qsTr("Take it out")
            onSaid: words => root.view.withdraw(words)
        },
        WordsSheet {
            id: reopenSheet

            parent: root.parent
            ask: root.view.ask
            asks: "reopen"
            title: qsTr("Open it again")
            hint: qsTr("Its signatures stay on record and count no longer; checks that rested on it are owed again.")
            confirm: qsTr("Open it again")
            onSaid: words => root.view.reopen(words)
        }
    ]
}
