// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One thing that would be different, put together by touch.
//   view;  ask(kind) opens it
DialogSheet {
    id: root

    required property WhatIfView view
    readonly property WhatIfForm form: view.form

    function ask(kind: int): void {
        root.form.begin(kind)
        root.shown = true
    }

    title: form.title
    low: true
    sheetWidth: Math.min(Theme.mm(400), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        PlanChoice {
            width: parent.width
            visible: root.form.whomHead.length > 0
            title: root.form.whomHead
            choices: root.form.whom
            onSaid: id => root.form.chooseWhom(id)
        }

        PlanChoice {
            width: parent.width
            visible: root.form.firstHead.length > 0
            title: root.form.firstHead
            choices: root.form.first
            onSaid: id => root.form.chooseFirst(id)
        }

        PlanChoice {
            width: parent.width
            visible: root.form.secondHead.length > 0
            title: root.form.secondHead
            choices: root.form.second
            onSaid: id => root.form.chooseSecond(id)
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Look at it")
            available: root.form.ready
            reason: root.form.kind === WhatIfForm.Promise ? qsTr("a car, and what is different") : qsTr("choose first")
            onTapped: {
                root.shown = false
                root.view.add()
            }
        }
    ]
}
